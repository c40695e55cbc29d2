"""The shipped languages are whole, fit their screens' letters and count by their own rules."""

from __future__ import annotations

import re
import unicodedata
from pathlib import Path

import pytest
from babel import Locale
from fontTools.ttLib import TTFont

from kiosk.content import Loaded, load
from kiosk.core.plan.trials import asked_in
from kiosk.core.units import Length, SpindleSpeed
from kiosk.core.words import Words, plural_form, plural_forms
from kiosk.drawings.fonts import WEIGHTS, fonts

SEQUENCES = Path(__file__).parents[2] / "sequences"
FILES = sorted(p.stem for p in (SEQUENCES / "languages").glob("*.yaml") if p.stem != "glossary")
OTHERS = [code for code in FILES if code != "en"]
UNCHECKED = "not yet checked by a speaker"
PARTING = "\n"  # parts lines, and is never drawn


def words_in(shipped: Loaded, code: str) -> Words:
    """The words of one shipped language."""
    assert code in shipped.words.others
    return shipped.words.of(code)


def test_english_is_there_and_at_least_three_more() -> None:
    assert "en" in FILES
    assert {"cy", "pl", "uk"} <= set(OTHERS)


@pytest.mark.parametrize("code", OTHERS)
def test_a_shipped_language_is_whole_and_names_itself(shipped: Loaded, code: str) -> None:
    words = words_in(shipped, code)

    missing = [str(doubt) for doubt in shipped.doubts if code in doubt.place.file]

    assert not missing
    assert words.say("language") not in ("language", "English", code)
    assert words.say("checked_by") == UNCHECKED


@pytest.mark.parametrize("code", OTHERS)
def test_a_translation_is_not_left_in_english(shipped: Loaded, code: str) -> None:
    english, words = shipped.words.texts, words_in(shipped, code).texts

    unused = tuple(f".{form}" for form in {"one", "other"} - set(plural_forms(code)))
    told = {k: text for k, text in english.items() if not k.startswith("keyboard.")}
    said = {k: text for k, text in told.items() if not k.endswith(unused)}
    same = [k for k, text in said.items() if text == words[k] and len(text.split()) > 2]

    assert not same


@pytest.mark.parametrize("code", FILES)
def test_every_letter_is_in_the_shipped_font(shipped: Loaded, code: str) -> None:
    letters = set("".join(words_in(shipped, code).texts.values())) - set(PARTING)
    letters |= {*"0123456789", words_in(shipped, code).decimal, "\u00a0"}

    for weight in WEIGHTS:
        drawn = set(map(chr, TTFont(fonts().of(weight)).getBestCmap()))
        assert not letters - drawn, f"weight {weight}"


@pytest.mark.parametrize("code", FILES)
def test_texts_are_composed_letters_with_one_kind_of_apostrophe(code: str) -> None:
    text = (SEQUENCES / "languages" / f"{code}.yaml").read_text("utf-8")

    assert text == unicodedata.normalize("NFC", text)
    assert not re.search(r"\w[’ʼ]\w", text), "write ' inside a word"


@pytest.mark.parametrize("code", FILES)
def test_every_form_of_a_shop_word_but_the_first_stands_in_the_steps(
    shipped: Loaded, code: str
) -> None:
    texts = words_in(shipped, code).texts
    steps = "\n".join(t for k, t in texts.items() if k.startswith(("step.", "trouble."))).lower()

    asked = {k: t.split("\n")[1:] for k, t in texts.items() if re.match(r"word\..*\.forms", k)}
    strange = {k: [f for f in forms if f.lower() not in steps] for k, forms in asked.items()}

    assert not {k: forms for k, forms in strange.items() if forms and code != "en"}


@pytest.mark.parametrize("code", FILES)
def test_a_shop_word_is_explained_in_twelve_words(shipped: Loaded, code: str) -> None:
    texts = words_in(shipped, code).texts

    means = [t for k, t in texts.items() if re.fullmatch(r"word\.\w+", k)]

    assert means
    assert not [text for text in means if len(text.split()) > 12]


# --- numbers ---


@pytest.mark.parametrize("code", ["en", "cy", "pl", "uk"])
def test_plural_forms_are_those_of_an_independent_library(code: str) -> None:
    rule = Locale.parse(code).plural_form

    found = [plural_form(code, number) for number in range(1201)]

    assert found == [rule(number) for number in range(1201)]
    assert set(found) == set(plural_forms(code))


@pytest.mark.parametrize(
    ("code", "said"),
    [
        ("en", ["1 minute", "2 minutes", "5 minutes", "21 minutes", "22 minutes"]),
        ("cy", ["1 munud", "2 funud", "5 munud", "21 munud", "22 munud"]),
        ("pl", ["1 minutę", "2 minuty", "5 minut", "21 minut", "22 minuty"]),
        ("uk", ["1 хвилину", "2 хвилини", "5 хвилин", "21 хвилину", "22 хвилини"]),
    ],
)
def test_a_count_takes_the_form_of_its_number(shipped: Loaded, code: str, said: list[str]) -> None:
    words = words_in(shipped, code)

    assert [words.say("wait.minutes", n=n) for n in (1, 2, 5, 21, 22)] == said


@pytest.mark.parametrize(
    ("code", "length", "speed"),
    [
        ("en", "6.5 mm", "1200 rpm"),
        ("cy", "6.5 mm", "1200 cylchdro/mun"),
        ("pl", "6,5 mm", "1200 obr./min"),
        ("uk", "6,5 мм", "1200 об/хв"),
    ],
)
def test_quantities_have_the_languages_mark_and_sign(
    shipped: Loaded, code: str, length: str, speed: str
) -> None:
    words = words_in(shipped, code)

    assert words.number(Length(6.5)) == length.replace(" ", "\u00a0")
    assert words.number(SpindleSpeed(1200.0)) == speed.replace(" ", "\u00a0")


# --- a school's own ---


def school_with(folder: Path, name: str, text: str) -> Path:
    """A school's folder with one file in it."""
    (folder / name).parent.mkdir(parents=True, exist_ok=True)
    (folder / name).write_text(text, "utf-8")
    return folder


def test_a_schools_language_stands_beside_the_shipped_and_stays_english_where_it_is_short(
    tmp_path: Path,
) -> None:
    school = school_with(tmp_path, "languages/de.yaml", "language: Deutsch\nbutton.back: Zurück\n")

    loaded = load(SEQUENCES, school, "de")

    assert loaded.content is not None
    assert loaded.words.say("button.back") == "Zurück"
    assert loaded.words.say("button.done") == "Done"
    assert [d for d in loaded.doubts if "texts are missing" in d.found and "de" in d.place.file]


def test_a_school_says_who_has_checked_a_language(tmp_path: Path) -> None:
    text = "checked_by: two Polish teachers, invented\nbutton.back: Wróć\n"
    school = school_with(tmp_path, "languages/pl.yaml", text)

    words = load(SEQUENCES, school).words.of("pl")

    assert words.say("checked_by") == "two Polish teachers, invented"
    assert words.say("button.back") == "Wróć"
    assert words.say("button.done") != "Done"


def test_a_schools_own_wording_stands_where_only_the_shipped_one_was_translated(
    tmp_path: Path,
) -> None:
    ours = "step.key.see: The key hangs beside the clock\n"
    school = school_with(tmp_path, "languages/en.yaml", ours)

    polish = load(SEQUENCES, school).words.of("pl")

    assert polish.say("step.key.see") == "The key hangs beside the clock"
    assert polish.say("step.key.title") == load(SEQUENCES).words.of("pl").say("step.key.title")


def test_an_unknown_language_is_english(shipped: Loaded) -> None:
    assert load(SEQUENCES, language="xx").words.say("button.back") == "Back"
    assert shipped.words.of("xx") is shipped.words


def test_places_are_the_same_as_in_english_wherever_they_stand() -> None:
    assert asked_in("{a} and {b}") == asked_in("{b}, {a}, {b}") != asked_in("{a}")
