"""The undrilled ball as its spec sheet describes it."""

import math
from dataclasses import dataclass

from workbook import errors, sources, units
from workbook.inputs import Inputs, quantity, word

COVERS = ("polyester", "urethane", "reactive")


@dataclass(frozen=True, kw_only=True)
class Ball(Inputs):
    """An undrilled ball.

    Parameters
    ----------
    weight_lb : float
        Weight [lb].
    circumference_in : float
        Circumference [in].
    rg_low_in : float
        RG about the pin axis, the lowest [in].
    differential_in : float
        Total differential, highest minus lowest RG [in].
    intermediate_in : float
        Intermediate differential, **highest minus intermediate** RG [in] (the governing body's
        convention; USBC glossary).
    top_weight_oz : float
        Top weight toward the CG mark [oz]; negative away from it.
    pin_to_cg_in : float
        Distance on the surface from pin to CG mark [in].
    cover : {"polyester", "urethane", "reactive"}
    filler_density_g_cm3 : float, optional
        Density of what the holes are cut from [g/cm3]; when left out, the ball's mean density
        times `Assumptions.filler_ratio`.

    Raises
    ------
    InputRefused
        A value is missing, of the wrong type or outside its limits.

    Warns
    -----
    LegalLimit
        A value beyond a rule of the sport, which is named with its date.
    """

    weight_lb: float = quantity("ball weight", "lb", 6.0, 16.0)
    circumference_in: float = quantity(
        "ball circumference", "in", 26.5, 27.2, sources.value("usual_circumference")
    )
    rg_low_in: float = quantity("low RG", "in", 2.40, 2.85)
    differential_in: float = quantity("differential", "in", 0.0, 0.080)
    intermediate_in: float = quantity("intermediate differential", "in", 0.0, 0.080, 0.0)
    top_weight_oz: float = quantity("top weight", "oz", -5.0, 5.0, 0.0)
    pin_to_cg_in: float = quantity("pin-to-CG distance", "in", 0.0, 6.75, 3.0)
    cover: str = word("cover", COVERS)
    filler_density_g_cm3: float | None = quantity(
        "filler density", "g/cm3", 0.3, sources.value("component_density_max"), None, optional=True
    )

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.intermediate_in > self.differential_in:
            raise errors.InputRefused(
                f"intermediate differential {self.intermediate_in:g} in is outside 0 to "
                f"{self.differential_in:g} in, the total differential."
            )
        errors.warn_legal(self.legal_notes)

    @property
    def radius_m(self) -> float:
        """Radius [m]."""
        return units.radius_m(self.circumference_in)

    @property
    def mass_kg(self) -> float:
        """Mass [kg]."""
        return self.weight_lb * units.POUND

    @property
    def mean_density_g_cm3(self) -> float:
        """Mean density [g/cm3]."""
        volume = 4.0 / 3.0 * math.pi * self.radius_m**3
        return self.mass_kg / volume / units.GRAM_PER_CM3

    @property
    def rg_high_in(self) -> float:
        """Highest RG [in]."""
        return self.rg_low_in + self.differential_in

    @property
    def rg_intermediate_in(self) -> float:
        """Intermediate RG [in]: highest minus the intermediate differential."""
        return self.rg_high_in - self.intermediate_in

    @property
    def asymmetric(self) -> bool:
        """Asymmetric by the governing body's 5 % rule (published: USBC glossary)."""
        share = sources.value("asymmetric_share")
        return self.intermediate_in > share * self.differential_in

    @property
    def legal_notes(self) -> tuple[str, ...]:
        """One sentence for each legal limit that this ball breaks, with rule and date."""
        return tuple(
            f"{words} {given:g} in is {'below' if least else 'above'} the legal limit of "
            f"{sources.value(key):g} in ({sources.FACTS[key].source}); check the current rules."
            for words, given, key, least in (
                ("circumference", self.circumference_in, "circumference_min", True),
                ("circumference", self.circumference_in, "circumference_max", False),
                ("low RG", self.rg_low_in, "rg_min", True),
                ("high RG", self.rg_high_in, "rg_max", False),
                ("differential", self.differential_in, "differential_max", False),
            )
            if (given < sources.value(key) - 1e-9 if least else given > sources.value(key) + 1e-9)
        )
