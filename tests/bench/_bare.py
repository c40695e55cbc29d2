"""The floor: a bare Kivy app with one button, on the kiosk's own settings and panel.

`python -m tests.bench._bare RECORD`. A touch of the button commits one row to a plain SQLite file
as safely as the kiosk does, and changes the screen; each flip after it is told by its time.
"""

from __future__ import annotations

import sqlite3
import sys
from pathlib import Path

from kiosk.clock import Clock
from kiosk.screens.start import set_config, set_environment
from kiosk.screens.theme import SEVEN_INCH


def opened(path: Path) -> sqlite3.Connection:
    """A file with one table, in WAL and written through at each commit."""
    file = sqlite3.connect(path, isolation_level=None)
    file.execute("PRAGMA journal_mode = WAL")
    file.execute("PRAGMA synchronous = FULL")
    file.execute("CREATE TABLE IF NOT EXISTS rows (id INTEGER PRIMARY KEY, text TEXT)")
    return file


def main(path: Path) -> None:
    """Run until ended by a signal."""
    set_environment()
    set_config(SEVEN_INCH.width_px, SEVEN_INCH.height_px, kiosk=True, fullscreen=False)
    from kivy.app import App
    from kivy.core.window import Window
    from kivy.uix.button import Button
    from kivy.uix.screenmanager import NoTransition, Screen, ScreenManager

    file, clock = opened(path), Clock()

    class Bare(App):
        """Two screens, built once, with a button each."""

        def build(self) -> ScreenManager:
            self.screens = ScreenManager(transition=NoTransition())
            for name in ("one", "two"):
                screen = Screen(name=name)
                screen.add_widget(Button(text=f"Screen {name}", on_release=self.change))
                self.screens.add_widget(screen)
            Window.bind(on_flip=self.tell)
            return self.screens

        def change(self, _button: Button) -> None:
            """Keep a row, then show the other screen."""
            file.execute("BEGIN IMMEDIATE")
            file.execute("INSERT INTO rows (text) VALUES (?)", ("x" * 300,))
            file.execute("COMMIT")
            self.screens.current = "two" if self.screens.current == "one" else "one"

        def tell(self, _window: object) -> None:
            """Say when a frame stands, and which screen it shows."""
            print(clock.us(), self.screens.current, flush=True)

    Bare().run()


if __name__ == "__main__":
    main(Path(sys.argv[1]))
