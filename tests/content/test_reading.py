"""How hard the shipped steps are to read, and that every shop word is explained."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
import textstat

from kiosk.content import Loaded
from kiosk.content.reading import HARDEST_GRADE, grade, syllables, unexplained, words_of
from kiosk.content.wording import MOST_WORDS, sentences
from kiosk.core.plan.trials import asked_in

READ = ("title", "say", "see", "note", "why", "check", "now")
PLACE = re.compile(r"\{[^{}]*\}")

# Easy words by Dale and Chall's list of 1948 as the textstat package has it (MIT licence). It has
# no adult, and few of the words of being hurt, of hands and of hair.
EASY = Path(textstat.__file__).parent / "resources" / "en" / "easy_words.txt"
PLAIN_TOO = frozenset(
    "adult fetch press twist tuck wind spun blade scalps lungs blown wobble shatter o".split()
)

# Common words that a pupil knows in another sense, so that no count of frequency finds them.
# From memory; they must be in the glossary wherever a step uses them.
TWO_MEANINGS = (
    "bit chuck vice guard key table belt jaw jaws drill scale groove clamp handle bolt work grip"
    " plug tip hook dust fluid cover".split()
)

# Counted by hand from how the words are said in British English.
SYLLABLES = {
    1: "the drill bit chuck vice guard key clamp work hold held turned dropped clothes edge groove"
    " through off point scrap switch stopped pulled looks eye gripped wind loose straight swarf"
    " sleeves gloves holes jaws pushed breaks breathe rings touched lines",
    2: "spindle table handle pupil adult goggles edges lanyard fluid cutting tighten settle pieces"
    " people into never wobbles tidy cover broken something mended wanted finger quiet brushes"
    " latches plastic metal level wiper away reaches bandage",
    3: "vacuum already extraction together somebody company animal tightening",
    4: "isolator material diameter machinery",
    5: "university electricity",
}


def rows() -> list[tuple[str, int]]:
    """Each word of the list with its syllables."""
    return [(word, count) for count, words in SYLLABLES.items() for word in words.split()]


def step_texts(loaded: Loaded) -> dict[str, str]:
    """Every text of the shipped steps and recoveries, its places left out."""
    return {
        key: PLACE.sub(" 8 ", text)
        for key, text in loaded.words.texts.items()
        if key.startswith(("step.", "trouble.")) and key.rpartition(".")[2] in READ
    }


def taught(loaded: Loaded) -> dict[str, str]:
    """Each form of a word in the glossary, in small letters, with its id."""
    found = {}
    for key, text in loaded.words.texts.items():
        if key.startswith("word.") and key.endswith(".forms"):
            found |= {form.lower(): key.split(".")[1] for form in text.split("\n")}
    return found


def easy_words() -> frozenset[str]:
    """Words that need no explaining."""
    return frozenset(EASY.read_text("utf-8").lower().split()) | PLAIN_TOO


@pytest.mark.parametrize(("word", "count"), rows())
def test_syllables_are_counted_as_they_are_said(word: str, count: int) -> None:
    assert syllables(word) == count


def test_the_grade_is_the_published_formula() -> None:
    # 0.39 x 13/2 + 11.8 x 17/13 - 15.59 = 2.376: two sentences, 13 words, 17 syllables
    text = ("The adult looks at the table.", "You put the bit into the spindle.")

    assert sum(len(words_of(s)) for s in text) == 13
    assert grade(text) == pytest.approx(0.39 * 6.5 + 11.8 * 17 / 13 - 15.59)


def test_a_harder_text_has_a_higher_grade() -> None:
    hard = "Immediately discontinue operation whenever excessive vibration is experienced."

    assert grade([hard]) > 12 > HARDEST_GRADE > grade(["Press the red stop."])
    assert grade([]) == grade(["..."]) == 0.0


def test_the_whole_pack_reads_at_grade_4_or_under(
    shipped: Loaded, sum_up: Callable[[str], None]
) -> None:
    texts = step_texts(shipped).values()

    pack = [s for text in texts for line in text.split("\n") for s in sentences(line)]

    sum_up(f"{len(pack)} sentences, grade {grade(pack):.1f}")
    assert grade(pack) <= HARDEST_GRADE


def test_each_part_of_the_pack_reads_at_grade_4_or_under(shipped: Loaded) -> None:
    for name in ("say", "why", "note", "now"):
        texts = [t for k, t in step_texts(shipped).items() if k.endswith(f".{name}")]
        pack = [s for text in texts for line in text.split("\n") for s in sentences(line)]
        assert grade(pack) <= HARDEST_GRADE, name


def test_no_sentence_is_too_long(shipped: Loaded) -> None:
    texts = step_texts(shipped)

    long = [
        f"{key}: {sentence}"
        for key, text in texts.items()
        for line in text.split("\n")
        for sentence in sentences(line)
        if len(sentence.split()) > MOST_WORDS
    ]

    assert long == []


def test_every_word_is_plain_or_in_the_glossary(shipped: Loaded) -> None:
    words, plain = taught(shipped), easy_words()

    odd = {key: unexplained(text, plain, words) for key, text in step_texts(shipped).items()}

    assert {key: found for key, found in odd.items() if found} == {}


def test_every_word_of_two_meanings_is_in_the_glossary(shipped: Loaded) -> None:
    words = taught(shipped)
    used = {w for text in step_texts(shipped).values() for w in words_of(text)}

    assert used & set(TWO_MEANINGS) - {part for form in words for part in form.split()} == set()


def test_what_fills_a_place_is_explained_as_well(shipped: Loaded) -> None:
    content, words = shipped.content, taught(shipped)
    assert content is not None

    bits = {bit.name.lower() for bit in content.bits}
    markings = {material.marking for material in content.materials} - {"pencil"}

    assert (bits | markings) - set(words) == set()


def test_meanings_use_plain_words_or_words_of_the_glossary(shipped: Loaded) -> None:
    words, plain = taught(shipped), easy_words()
    plain |= {"rubber", "spur", "plate", "power", "cone", "threads", "worn", "dip", "v", "dig"}
    plain |= {"main", "plastic"}

    texts = {k: t for k, t in shipped.words.texts.items() if re.fullmatch(r"word\.\w+", k)}

    assert len(texts) >= 50
    assert {k: odd for k, t in texts.items() if (odd := unexplained(t, plain, words))} == {}


def test_an_unexplained_word_is_found() -> None:
    plain, words = frozenset({"the", "turn", "by", "hand"}), {"chuck": "chuck"}

    assert unexplained("Turned the chuck by hand.", plain, words) == ()
    assert unexplained("Turn the mandrel by hand.", plain, words) == ("mandrel",)


def test_every_place_to_fill_is_a_name(shipped: Loaded) -> None:
    asked = {name for text in shipped.words.texts.values() for name in asked_in(text)}

    assert all(re.fullmatch(r"[a-z_]+", name) for name in asked)
