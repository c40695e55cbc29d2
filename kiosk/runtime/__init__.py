"""The running kiosk: one loop thread owns the state; everything else posts to it or shows it.

`start.start(settings)` composes it. Neither the touch screen's library nor the serial one is
imported here.
"""
