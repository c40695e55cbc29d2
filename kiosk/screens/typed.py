"""What fingers have typed or paged on this screen and nobody else needs to know yet."""

from __future__ import annotations

from dataclasses import dataclass

PIN_LENGTH = 6
NOTE_LENGTH = 400


@dataclass
class Typed:
    """The digits of a PIN, an attended spell asked for, the text of a note, a page of a list."""

    digits: str = ""
    sent: bool = False
    stay: bool = False
    text: str = ""
    signs: bool = False
    page: int = 0
    seen: int = 0
    aside: int = -1

    def clear(self) -> None:
        """Begin a new screen."""
        self.clear_pin()
        self.stay, self.text, self.signs = False, "", False
        self.open_aside(-1)

    def open_aside(self, at: int) -> None:
        """Lay an aside over the view, from its first page on; -1 takes it away."""
        self.aside, self.page, self.seen = at, 0, 0

    def clear_pin(self) -> None:
        """Forget the digits."""
        self.digits, self.sent = "", False

    def digit(self, digit: str, most: int = PIN_LENGTH) -> None:
        """Take one digit more; a PIN that was sent makes room for the next."""
        if self.sent:
            self.clear_pin()
        self.digits = (self.digits + digit)[:most]

    def back(self) -> None:
        """Take the last digit back."""
        if self.sent:
            self.clear_pin()
        self.digits = self.digits[:-1]

    def is_whole(self, digits: int = PIN_LENGTH) -> bool:
        """Whether the PIN has all its digits and has not been sent."""
        return len(self.digits) == digits and not self.sent

    def letter(self, letter: str) -> None:
        """Take one letter of a note; a sentence begins with a capital."""
        if not self.text or self.text.endswith((". ", "! ", "? ")):
            letter = letter.upper()
        if not (letter == " " and (not self.text or self.text.endswith(" "))):
            self.text = (self.text + letter)[:NOTE_LENGTH]

    def rub(self) -> None:
        """Take the last letter back."""
        self.text = self.text[:-1]

    def turn(self, by: int) -> None:
        """Turn pages; `seen` remembers the last page looked at."""
        self.page = max(0, self.page + by)
        self.seen = max(self.seen, self.page)
