"""How hard a text is to read: its words, syllables and grade, and which shop words it uses.

The grade is Flesch-Kincaid: Kincaid, Fishburne, Rogers and Chissom, Derivation of new readability
formulas for Navy enlisted personnel, Research Branch Report 8-75, 1975. Syllables are counted by
spelling, which is right for nearly all words of a workshop; `ODD` has the others.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

HARDEST_GRADE = 4.0  # of a whole pack; an 11-year-old reads it at a glance
_WORD = re.compile(r"[A-Za-z]+(?:'[a-z]+)?")
_VOWELS = re.compile(r"[aeiouy]+")
_SILENT_END = re.compile(
    r"(?:(?<![cs]h)[^laeiouycgshxz]es|(?<![cs])hes|[^aeiouydt]ed|[^laeiouy]e|[aeiouy]le|[aeiouy]les)$"
)
_SPLIT = re.compile(r"i[ao](?!us)|[^q]ua(?!r)|eo(?!n)|ying|ui(?=d$)")

# Words whose spelling misleads the count.
ODD = {
    "area": 3,
    "being": 2,
    "chocolate": 3,
    "clothes": 1,
    "cover": 2,
    "cruel": 2,
    "diameter": 4,
    "ears": 1,
    "every": 2,
    "everything": 3,
    "extraction": 3,
    "eye": 1,
    "eyes": 1,
    "fluid": 2,
    "going": 2,
    "isolator": 4,
    "lanyard": 2,
    "lanyards": 2,
    "material": 4,
    "people": 2,
    "pieces": 2,
    "piece": 1,
    "quiet": 2,
    "something": 2,
    "somebody": 3,
    "someone": 2,
    "sometimes": 2,
    "spindle": 2,
    "thicker": 2,
    "vacuum": 3,
}


def words_of(text: str) -> tuple[str, ...]:
    """The words of a text, in small letters."""
    return tuple(word.lower() for word in _WORD.findall(text))


def syllables(word: str) -> int:
    """How many syllables an English word has, by its spelling; at least one."""
    plain = re.sub(r"[^a-z]", "", word.lower().removesuffix("'s"))
    if plain in ODD:
        return ODD[plain]
    count = len(_VOWELS.findall(plain)) + len(_SPLIT.findall(plain))
    if _SILENT_END.search(plain) and count > 1:
        count -= 1
    return max(count, 1)


def grade(sentences: Iterable[str]) -> float:
    """The Flesch-Kincaid grade: the school year, counted as in the US, that reads the sentences.

    0.39 words a sentence + 11.8 syllables a word - 15.59; 0.0 for no words.
    """
    spoken = [words for sentence in sentences if (words := words_of(sentence))]
    count = sum(map(len, spoken))
    if not count:
        return 0.0
    sounds = sum(syllables(word) for words in spoken for word in words)
    return 0.39 * count / len(spoken) + 11.8 * sounds / count - 15.59


def unexplained(text: str, plain: frozenset[str], taught: Mapping[str, str]) -> tuple[str, ...]:
    """Words of a text that are neither plain English nor a form of a word in the glossary.

    `plain` holds words of every day in small letters; `taught` has the glossary's forms. A form
    of several words, such as `chuck key`, is taken out before its single words are looked at.
    """
    left = f" {' '.join(words_of(text))} "
    for form in sorted(taught, key=len, reverse=True):
        left = left.replace(f" {' '.join(words_of(form))} ", "  ")
    return tuple(dict.fromkeys(w for w in left.split() if not _is_plain(w, plain)))


def _is_plain(word: str, plain: frozenset[str]) -> bool:
    return any(stem in plain for stem in stems(word))


def stems(word: str) -> tuple[str, ...]:
    """The word, and what it may be a form of: brushes, brush; gripped, grip; wiped, wipe."""
    plain = word.removesuffix("'s")
    found = [word, plain]
    for end in ("s", "es", "ed", "d", "ing", "er", "r", "ly", "est", "y"):
        if plain.endswith(end) and len(plain) > len(end) + 1:
            stem = plain.removesuffix(end)
            found += [stem, f"{stem}e", stem[:-1] if stem[-1:] == stem[-2:-1] else stem]
            found += [f"{stem[:-1]}y"] if stem.endswith("i") else []
    return tuple(found)
