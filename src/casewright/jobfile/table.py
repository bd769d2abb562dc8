"""What every table of a job file is: it knows its keys, and its texts are printable."""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Strict, StringConstraints

# Control characters, and those that turn the direction of writing: names are printed on every page.
_UNSEEN = r"\x00-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ufeff"
NAME = rf"^[^{_UNSEEN}]*[^\s{_UNSEEN}][^{_UNSEEN}]*$"
SEEN = rf"^[^{_UNSEEN}]*$"
NOTES = r"^[^\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ufeff]*$"
Text = Annotated[str, StringConstraints(max_length=2000, pattern=NOTES)]
Name = Annotated[str, StringConstraints(pattern=NAME, max_length=80)]
YesNo = Annotated[bool, Strict()]
Key = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9_-]{0,30}$")]
CaseMark = Annotated[str, StringConstraints(pattern=r"^[A-Za-z][A-Za-z0-9]{0,5}(-[0-9]{1,3})?$")]


class Table(BaseModel):
    """A table that refuses unknown keys."""

    model_config = ConfigDict(extra="forbid", frozen=True)
