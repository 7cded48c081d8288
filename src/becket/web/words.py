"""The words on the pages: one catalogue a language, merged from the parts.

In:    the folder of catalogues, ``words/LANGUAGE/PART.json``, each flat: "now.rigged": "Rigged now".
Out:   a text by its key, its places filled in.
Never: a text for a key that no catalogue has; a key that two parts have.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Final

from becket.errors import NotOnFileError

FOLDER: Final = Path(__file__).parent / "words"


class Words:
    """Every text of one language."""

    def __init__(self, language: str = "en", folder: Path = FOLDER) -> None:
        self.language = language
        self._texts = _merged(folder / language)

    def word(self, key: str, /, **values: object) -> str:
        """Return the text of a key with its places filled in [-].

        Args:
            key: as in the catalogue: "now.rigged"
            values: one for each place of the text

        Raises:
            NotOnFileError: no catalogue has the key, or a place has no value.
        """
        text = self._texts.get(key)
        if text is None:
            raise NotOnFileError(f'words: no text for "{key}" in words/{self.language}')
        try:
            return text.format_map(values) if "{" in text else text
        except KeyError as error:
            raise NotOnFileError(f'words: "{key}" has a place {error} and no value for it') from None

    def texts(self) -> Mapping[str, str]:
        """Return every text by its key [-]."""
        return self._texts

    def as_bytes(self) -> bytes:
        """Return the catalogue as the phone loads it [-]."""
        return json.dumps(self._texts, ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode()


def _merged(folder: Path) -> dict[str, str]:
    texts: dict[str, str] = {}
    for part in sorted(folder.glob("*.json")):
        found = json.loads(part.read_text(encoding="utf-8"), object_pairs_hook=list)
        for key, text in found:
            if key in texts:
                raise NotOnFileError(f"{part.name}: {key} stands there twice or in another part too; one key, one text")
            texts[key] = text
    return texts
