"""Plain drawing data of the maps over pin places, and the same in words."""

from dataclasses import dataclass

import numpy as np

from workbook.scenes import HoleOutline, place_words


@dataclass(frozen=True, eq=False)
class MapLayer:
    """One quantity over the places of the pin.

    Parameters
    ----------
    words, unit : str
        The quantity and its unit.
    values : (M, N) ndarray
        Over the scene's places [unit].
    here : float
        At the present pin [unit].
    digits : int
        Decimals worth showing.
    limit : float or None
        A legal limit to draw where the values pass it [unit].
    """

    words: str
    unit: str
    values: np.ndarray
    here: float
    digits: int
    limit: float | None = None

    def describe(self) -> str:
        """Return the layer in one sentence."""
        low, high, here = (
            f"{float(value):.{self.digits}f}"
            for value in (self.values.min(), self.values.max(), self.here)
        )
        called = self.words[0].upper() + self.words[1:]
        return f"{called} from {low} to {high} {self.unit}, here {here} {self.unit}"


@dataclass(frozen=True, eq=False)
class PinMapScene:
    """Maps over the places of the pin, drawn on the ball, all on the same places.

    Parameters
    ----------
    places : (M, N, 3) ndarray
        Directions of the pin [1]: rows around the PAP, columns away from it.
    layers : tuple of MapLayer
        One map each.
    static_oz : (M, N) ndarray
        Greatest static imbalance [oz].
    static_limit_oz : float or None
        Legal limit of it [oz]; None where no limit holds.
    pin, pap : (3,) ndarray
        Directions of the present pin and of the PAP [1].
    holes : tuple of HoleOutline
        All drilled holes.
    hand : {"right", "left"}
        A left-hander's maps are mirrored.
    circumference_in : float
        Of the ball [in]; only the words need it, to give places in inches.
    """

    places: np.ndarray
    layers: tuple[MapLayer, ...]
    static_oz: np.ndarray
    static_limit_oz: float | None
    pin: np.ndarray
    pap: np.ndarray
    holes: tuple[HoleOutline, ...]
    hand: str
    circumference_in: float

    @property
    def passes_static_limit(self) -> bool:
        """Whether some place of the pin passes the limit of static imbalance."""
        return self.static_limit_oz is not None and bool(
            np.any(self.static_oz > self.static_limit_oz)
        )

    def describe(self) -> str:
        """Return the maps in words."""
        parts = [f"Maps of what a {self.hand}-hander's ball becomes over the place of its pin."]
        for layer in self.layers:
            least, greatest = (self._place(at(layer.values)) for at in (np.argmin, np.argmax))
            parts.append(f"{layer.describe()}; least with the pin {least}, greatest {greatest}.")
        if self.static_limit_oz is not None:
            places = "some places" if self.passes_static_limit else "no place"
            parts.append(f"Static imbalance above {self.static_limit_oz:g} oz at {places}.")
        return " ".join(parts)

    def _place(self, at: np.intp) -> str:
        """Say where a place of the pin lies from the grip centre."""
        return place_words(self.places.reshape(-1, 3)[at], self.circumference_in)
