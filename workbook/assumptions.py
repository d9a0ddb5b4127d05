"""The one parameter object of everything that is assumed, each field with its range and mark."""

from dataclasses import dataclass

from workbook.inputs import Inputs, assumed


@dataclass(frozen=True, kw_only=True)
class Assumptions(Inputs):
    """What the model assumes; replace a field to ask "what if". Ranges: `workbook.sources.FACTS`.

    Parameters
    ----------
    mu_oil : float
        Friction under a thick film [1].
    mu_dry_polyester, mu_dry_urethane, mu_dry_reactive : float
        Dry friction by cover [1].
    absorbed_polyester, absorbed_urethane, absorbed_reactive : float
        Share of the carried oil that the cover absorbs each turn [1].
    kept : float
        Share of the contact film that stays on the ball [1].
    track_width : float
        Width of the oil track [in].
    film_cap : float
        Most film that a contact takes in [um].
    film_ratio : float
        Film over roughness at which the dry share of friction has fallen to 1/e [1].
    lane_roughness : float
        Rq of the lane [um].
    ra_at_2000, ra_polished : float
        Ra of the cover at 2000 grit and polished [uin].
    ra_exponent : float
        Exponent of Ra in 1/grit [1].
    slip_scale : float
        Slip at which friction is fully developed [m/s].
    kappa : float
        Scale of static balance: ounces = moment / (kappa x radius) [1]. 1 is a scale that balances
        moments, 0.53 one that compares halves of evenly spread mass.
    insert_density : float
        Density of finger inserts and thumb slugs [g/cm3].
    filler_ratio : float
        Density of what the holes are cut from over the ball's mean density [1]; not looked at for
        a ball whose filler density is given.
    ring_film : float
        Thinnest lane film that leaves a visible ring [um].

    Raises
    ------
    InputRefused
        A value outside its range.
    """

    mu_oil: float = assumed("mu_oil", "oil friction")
    mu_dry_polyester: float = assumed("mu_dry_polyester", "dry friction of polyester")
    mu_dry_urethane: float = assumed("mu_dry_urethane", "dry friction of urethane")
    mu_dry_reactive: float = assumed("mu_dry_reactive", "dry friction of reactive")
    absorbed_polyester: float = assumed("absorbed_polyester", "oil absorbed by polyester")
    absorbed_urethane: float = assumed("absorbed_urethane", "oil absorbed by urethane")
    absorbed_reactive: float = assumed("absorbed_reactive", "oil absorbed by reactive")
    kept: float = assumed("kept", "film kept on the ball")
    track_width: float = assumed("track_width", "track width")
    film_cap: float = assumed("film_cap", "most film in the contact")
    film_ratio: float = assumed("film_ratio", "film-to-roughness ratio")
    lane_roughness: float = assumed("lane_roughness", "lane roughness")
    ra_at_2000: float = assumed("ra_at_2000", "Ra at 2000 grit")
    ra_exponent: float = assumed("ra_exponent", "Ra exponent")
    ra_polished: float = assumed("ra_polished", "Ra polished")
    slip_scale: float = assumed("slip_scale", "slip scale")
    kappa: float = assumed("kappa", "static-balance scale")
    insert_density: float = assumed("insert_density", "insert density")
    filler_ratio: float = assumed("filler_ratio", "filler density ratio")
    ring_film: float = assumed("ring_film", "thinnest film of a ring")
