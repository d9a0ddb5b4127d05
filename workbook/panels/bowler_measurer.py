"""Chapter 03's panel: a bowler from an oil track, a clock, a video and a tape."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from workbook import demo, errors
from workbook.bowler import Bowler
from workbook.demo_tracks import SPARE, clinic_setup, measurements
from workbook.draw.ball_picture import BallPicture
from workbook.draw.residual_picture import ResidualPicture
from workbook.errors import InputRefused
from workbook.grip import Grip
from workbook.lane import Lane
from workbook.measuring import Measured, ReleaseMatch, release_match, release_speed_mph
from workbook.panels import bowler_measurer_controls as made
from workbook.panels.files import FileRow
from workbook.panels.html import code_html, list_html, spoken_html, table_html
from workbook.panels.panel import Answer, Panel, Values
from workbook.panels.record_controls import OWN
from workbook.setup import Setup
from workbook.staging_track import track_ball_scene, track_scene
from workbook.track import TrackReading, pap_from_track
from workbook.track_tables import bowler_table, match_table
from workbook.track_words import (
    left_over_words,
    match_sentence,
    mean_speed_words,
    track_code,
    track_notes,
    track_sentence,
)  # fmt: skip
from workbook.typed import number_from

LANE = Lane.house()
COMPARE = "compare with "


class BowlerMeasurer:
    """Holds what the controls do not show: what was read, and a bowler from a file to compare."""

    def __init__(self, style: str) -> None:
        self.setup: Setup = clinic_setup(style)
        self.line = demo.STYLES[style].line
        self.made_for = style, SPARE  # whose invented measurements the fields were filled with
        self.filled = made.texts_of(measurements(style))
        self.loaded: dict[str, Bowler] = {}  # by what the menu calls them
        self.loading = False
        self.reading: TrackReading | None = None
        self.lacking = ""  # why what was measured makes no bowler
        self.bowler: Bowler | None = None
        self.files = FileRow("my bowler.json", {"save": self.save, "load": self.load_file})
        self.empty = widgets.Button(description="empty these fields", layout={"width": "auto"})
        self.empty.on_click(self._empty_fields)
        self.controls = made.controls(style)
        self.panel = Panel(
            controls=self.controls,
            pictures={"ball": BallPicture(count=1), "track": ResidualPicture()},
            texts=("sentence", "numbers", "match", "notes", "code"),
            answer=self._answer,
            follow={"style": self._chosen, "ball": self._thrown},
        )
        made.arrange(self.panel, self.files.box, self.empty)

    def _empty_fields(self, _button: widgets.Button) -> None:
        self.panel.set(**dict.fromkeys(made.TYPED, ""))

    def save(self, file: Path) -> str:
        """Write the measured bowler to a file; one that is there already is kept."""
        self._answer(self.panel.values)  # refuses what stands there now, if it has to
        if self.bowler is None:
            raise InputRefused(f"There is no bowler to save yet: {self.lacking}")
        self.bowler.to_json(file, overwrite=False)
        return f"Saved as {file.absolute()}."

    def load_file(self, file: Path) -> str:
        """Show a bowler from a file beside what is measured now."""
        bowler, control = Bowler.from_json(file), self.controls["style"]
        name = f"{COMPARE}{file.name}"
        self.loaded[name] = bowler
        self.loading = True  # the menu goes to its first choice when it gets another list
        try:
            with self.panel.moving_together():
                control.options = [*demo.STYLES, *self.loaded, OWN]
                control.value = OWN
            self.panel.set(style=name, hand=bowler.hand)
        finally:
            self.loading = False
        self.panel.refresh()
        return f"Loaded {file.name}: its figures stand beside those measured here."

    def _answer(self, values: Values) -> Answer:
        reading = pap_from_track(
            made.points_from(values["points"]), values["around_in"], number_from(values["error"])
        )
        found = made.measured_from(values)
        release = self._release(found, values)
        self.reading, self.bowler = reading, self._bowler(values, reading, found, release)
        match, (words, known) = self._match(values), self._known(values)
        pap = None if known is None else known.pap
        return Answer(
            scenes={
                "ball": (track_ball_scene(
                    reading, Grip.usual(thumb=values["thumb"]), values["hand"],
                    "points as measured, and the ring that fits them best",
                ),),
                "track": track_scene(reading, values["hand"], pap, f"PAP of {words}"),
            },
            texts={
                "sentence": spoken_html(track_sentence(reading)),
                "numbers": table_html(bowler_table(reading, found, release, known, words)),
                "match": table_html(match_table(*match)) if match else "",
            },
            says={"style": self._who(values)},
            later=(lambda: self._words(values, found["speed"], release),),
        )  # fmt: skip

    def _words(self, values: Values, mean: Measured | None, release: float | None) -> Answer:
        assert self.reading is not None
        style = self._who(values)
        said = track_notes(
            self.reading, thumb=values["thumb"],
            invented=f"the bowler '{style}' with {values['ball']}" if style in demo.STYLES else "",
        )  # fmt: skip
        if mean and release:
            distance = number_from(values["distance_ft"], "ft")
            said.insert(len(self.reading.doubts), mean_speed_words(mean, release, distance))
        match = self._match(values)
        if match:
            said.insert(len(self.reading.doubts), match_sentence(*match, values["ball"]))
        left = made.left_over(values, self.filled)
        if left:
            said.insert(0, left_over_words(left, self.made_for[0]))
        if self.lacking:
            said.append(f"No bowler to save yet: {self.lacking}")
        code = code_html(track_code(self.reading, self.bowler))
        return Answer(texts={"notes": list_html(said), "code": code})

    def _release(self, found: dict[str, Measured | None], values: Values) -> float | None:
        """Speed at release of the ball chosen, with the revs and rotation that were measured."""
        mean, revs, rotation = found["speed"], found["revs"], found["rotation"]
        if mean is None:
            return None
        bowler = self.setup.bowler
        bowler = replace(
            bowler,
            rev_rate_rpm=revs.value if revs else bowler.rev_rate_rpm,
            axis_rotation_deg=rotation.value if rotation else bowler.axis_rotation_deg,
        )
        distance, setup = (
            number_from(values["distance_ft"], "ft"),
            replace(self.setup, bowler=bowler),
        )
        return release_speed_mph(mean.value, distance, setup, LANE, self.line)

    def _bowler(
        self,
        values: Values,
        reading: TrackReading,
        found: dict[str, Measured | None],
        release: float | None,
    ) -> Bowler | None:
        """The bowler measured, or None and why there is none."""
        revs, rotation = found["revs"], found["rotation"]
        given: dict[str, Any] = {
            "pap_over_in": round(reading.pap_over_in, 3),
            "pap_up_in": round(reading.pap_up_in, 3),
            "axis_tilt_deg": round(reading.tilt_deg, 2),
            "speed_mph": release and round(release, 2),
            "rev_rate_rpm": revs and round(revs.value, 1),
            "axis_rotation_deg": rotation and round(rotation.value, 1),
        }
        self.lacking = ""
        try:
            return Bowler(hand=values["hand"], **given)
        except InputRefused as why:
            self.lacking = str(why)
            return None

    def _match(self, values: Values) -> tuple[ReleaseMatch, float] | None:
        """How revs match speed, and the most turn there can be; None without a bowler."""
        if self.bowler is None:
            return None
        rg, around = self.setup.ball.rg_low_in, values["around_in"]
        return release_match(self.bowler, around), self.bowler.most_turn_deg(rg, around)

    def _known(self, values: Values) -> tuple[str, Bowler | None]:
        """A bowler known otherwise, to compare with: of the clinic, or from a file."""
        who = self._who(values)
        if who in demo.STYLES:
            return "the clinic's bowler", demo.STYLES[who].bowler
        return who.removeprefix(COMPARE), self.loaded.get(who)

    def _who(self, values: Values) -> str:
        """What the menu says: a bowler of the clinic only while the points are theirs."""
        theirs = values["points"] == self.filled["points"] and values["style"] == self.made_for[0]
        return values["style"] if theirs or values["style"] in self.loaded else OWN

    def _chosen(self, style: str) -> None:
        if style in demo.STYLES and not self.loading:
            self._fill(style, self.controls["ball"].value)

    def _thrown(self, ball: str) -> None:
        """Another ball leaves another ring; a track of your own stays."""
        if self.controls["style"].value in demo.STYLES:
            self._fill(self.made_for[0], ball)
        else:
            self.setup = clinic_setup(self.made_for[0], ball)

    def _fill(self, style: str, ball: str) -> None:
        who = demo.STYLES[style]
        self.setup, self.line, self.made_for = clinic_setup(style, ball), who.line, (style, ball)
        self.filled = made.texts_of(measurements(style, ball))
        values: dict[str, Any] = {"hand": who.bowler.hand, "thumb": who.thumb, **self.filled}
        self.panel.set(style=style, around_in=self.setup.ball.circumference_in, **values)


def measure_the_bowler(style: str = demo.USUAL) -> Panel:
    """A bowler measured: PAP and tilt from the track, speed, revs, rotation, and how sure each is.

    Parameters
    ----------
    style : str
        A bowler of the invented clinic (`workbook.demo.STYLES`).

    Raises
    ------
    InputRefused
        A style that is not in the clinic.
    """
    errors.choice("style", style, tuple(demo.STYLES))
    return BowlerMeasurer(style).panel
