"""What a card or the progress page keeps of answers, and what there is to say about it."""

import os
from collections.abc import Callable
from datetime import UTC, datetime
from hashlib import blake2b
from pathlib import Path
from typing import TypeVar

from workbook import text_file
from workbook.errors import InputRefused
from workbook.practice import schedule
from workbook.practice.answered import Answered
from workbook.practice.progress import Progress
from workbook.practice.schedule import Standing

T = TypeVar("T")
SHARED = (
    "This page is shared: answers are marked here, and neither read from this computer nor kept."
)
SEEDS = 1_000_000


class Kept:
    """Answers on this computer; on a shared page nothing is read or written.

    The file is open only while it is used, so that another page can set it aside. `said` is what
    the user has to know about it, "" if all is well; `folder` where it is.
    """

    def __init__(self) -> None:
        self.shared = bool(os.environ.get(text_file.SHARED))
        self.said = SHARED if self.shared else ""
        self.folder: Path | None = None
        self.answers: list[Answered] = []
        self.read()

    def read(self) -> list[Answered]:
        """Return all answers, as they are now."""
        if not self.shared:
            self.said = ""
            self.answers = self._told(lambda progress: progress.answers(), self.answers)
        return self.answers

    def record(self, answered: Answered) -> bool:
        """Keep one answer; return whether that worked, and say it if not."""

        def add(progress: Progress) -> bool:
            progress.record(answered)
            self.said = ""
            self.answers = progress.answers()  # another page may have started anew
            return True

        return not self.shared and self._told(add, False)

    def use(self, work: Callable[[Progress], T]) -> T:
        """Return what `work` makes of the open file.

        Raises
        ------
        InputRefused
            A shared page, or what `Progress` refuses.
        """
        if self.shared:
            raise InputRefused(SHARED)
        with Progress() as progress:
            self.folder = progress.folder
            done = work(progress)
            self.said = progress.said or self.said
            return done

    def standings(self) -> dict[str, Standing]:
        """How each exercise stands that was answered."""
        return schedule.standings(self.answers, datetime.now(UTC))

    def seed(self, exercise: str) -> int:
        """The user's own variant of an exercise; 0, the worked example, on a shared page.

        It follows from where the answers are kept: the same every day, another for another user.
        """
        if self.folder is None:
            return 0
        digest = blake2b(f"{self.folder} {exercise}".encode("utf-8", "surrogatepass"))
        return 1 + int.from_bytes(digest.digest()[:8]) % SEEDS

    def _told(self, work: Callable[[Progress], T], otherwise: T) -> T:
        try:
            return self.use(work)
        except InputRefused as why:
            self.said = str(why)
            return otherwise
