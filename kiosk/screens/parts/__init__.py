"""The few own widgets; the screens use no others, and no screen names a Kivy widget."""
