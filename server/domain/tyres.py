"""Tyres: what a designation says, what an axle of them may carry, how big they are.

The load that an index stands for holds at the pressure and speed of the tyre's own table; less pressure carries
less. Diameters are those of the design, unloaded and new.
"""

import re
from dataclasses import dataclass
from math import pi, sqrt

from .errors import DomainError, NotKnown, Unknown, check_range

INCH_MM = 25.4  # mm per rim code: UN R30 (read in a reproduction)
LEAST_INDEX, GREATEST_INDEX = 60, 130

# kg for the indices 60 to 130: ISO 4000-1, ETRTO, UN R30 and R54 Annex 4. The standards' own tables were not
# reached; nine open tables were read and are identical over this range.
LOADS_KG = (
    *(250, 257, 265, 272, 280, 290, 300, 307, 315, 325),
    *(335, 345, 355, 365, 375, 387, 400, 412, 425, 437),
    *(450, 462, 475, 487, 500, 515, 530, 545, 560, 580),
    *(600, 615, 630, 650, 670, 690, 710, 730, 750, 775),
    *(800, 825, 850, 875, 900, 925, 950, 975, 1000, 1030),
    *(1060, 1090, 1120, 1150, 1180, 1215, 1250, 1285, 1320, 1360),
    *(1400, 1450, 1500, 1550, 1600, 1650, 1700, 1750, 1800, 1850, 1900),
)

# Speed symbol -> km/h, slowest first; H sits after U. UN R30 and R54, read in a reproduction.
SPEEDS_KMH = {
    "F": 80.0, "G": 90.0, "J": 100.0, "K": 110.0, "L": 120.0, "M": 130.0, "N": 140.0, "P": 150.0, "Q": 160.0,
    "R": 170.0, "S": 180.0, "T": 190.0, "U": 200.0, "H": 210.0, "V": 240.0, "W": 270.0, "Y": 300.0,
}  # fmt: skip

# One standard uncertainty of a tyre's diameter: its tread worn by anything from 0 to 7 mm, 14 mm of diameter,
# rectangular (assumed).
DIAMETER_U_M = 0.004

FORM = "a size as on the sidewall: 265/70R17 121/118S, 7.50R16 or 31x10.5R15"
_BUILD = r"(?:\s*(?:Z?R|D|B|-|/)\s*|\s+)"
_MARKS = r"(?:\s*(?:LT|C|XL|TL|TT|M\+S|[0-9]{1,2}\s?PR))*"
_RIM = r"([0-9]{1,2}(?:\.5)?)"
_INDEX = r"(?:\s*\(?([0-9]{2,3})(?:\s*/\s*([0-9]{2,3}))?\s*([A-Z])?\)?)?"
_REST = rf"{_BUILD}{_RIM}{_MARKS}{_INDEX}{_MARKS}$"
_METRIC = re.compile(rf"^(?:P|LT|ST)?\s*([0-9]{{3}})(?:(?:\s*[/-]\s*|\s+)([0-9]{{2,3}}))?{_REST}")
_INCHES = re.compile(rf"^(?:LT|ST)?\s*([0-9]{{1,2}}(?:\.[0-9]{{1,2}})?)()(?=\s*[RD-]){_REST}")
_BY_DIAMETER = re.compile(
    rf"^(?:LT)?\s*([0-9]{{2}}(?:\.[0-9]{{1,2}})?)\s*X\s*([0-9]{{1,2}}(?:\.[0-9]{{1,2}})?){_REST}"
)


@dataclass(frozen=True, slots=True)
class Designation:
    """What a sidewall says; what it does not say is None.

    `aspect_percent` is the section's height over its width; a size such as 7.50R16 leaves it out.
    """

    width_mm: float
    aspect_percent: float | None
    rim_code: float
    load_index: int | None
    load_index_dual: int | None
    speed_symbol: str | None


@dataclass(frozen=True, slots=True)
class Factor:
    """True km per km on the odometer, and its u."""

    factor: float
    factor_u: float


@dataclass(frozen=True, slots=True)
class Fitted:
    """Tyres as a plate states them; what cannot be read or looked up is None, never guessed."""

    designation: Designation | None
    load_index: int | None
    tyre_kg: float | None
    axle_kg: float | None
    diameter_m: float | None


def parse_designation(*, text: str) -> Designation:
    """Read a tyre's designation as people type it: 265/70R17 121/118S, LT265/70 R 17, 7.50R16, 31x10.5R15.

    Small letters, spaces, a decimal comma and service marks (C, LT, XL, 8PR) are accepted. A size by overall
    diameter gives the aspect that leads to it. Width 100 to 460 mm, aspect 20 to 110 %, rim code 8 to 30, dual
    index not above the single, speed symbol from the table; anything else is refused, with the form that is
    expected. Source of the form: the markings of UN R30 and R54 (from memory).
    """
    typed = " ".join(text.upper().replace(",", ".").replace("×", "X").split())
    metric, inches, by_diameter = (form.match(typed) for form in (_METRIC, _INCHES, _BY_DIAMETER))
    found = metric or inches or by_diameter
    if found is None:
        raise _unreadable(text)
    first, second, rim_code = float(found[1]), float(found[2] or 0), float(found[3])
    width_mm, aspect = first, second or None
    if metric is None and inches is not None:
        width_mm = first * INCH_MM
    elif metric is None:
        width_mm, aspect = second * INCH_MM, 100 * (first - rim_code) / (2 * second) if second else None
    index, dual, symbol = (found[k] or None for k in (4, 5, 6))
    out = Designation(
        width_mm, aspect, rim_code, int(index) if index else None, int(dual) if dual else None, symbol
    )
    if not _possible(out):
        raise _unreadable(text)
    return out


def _unreadable(text: str) -> DomainError:
    return DomainError("tyre_size", text, FORM, "Type it as it stands on the tyre")


def _possible(one: Designation) -> bool:
    return (
        100 <= one.width_mm <= 460
        and (one.aspect_percent is None or 20 <= one.aspect_percent <= 110)
        and 8 <= one.rim_code <= 30
        and (one.load_index_dual is None or one.load_index is None or one.load_index_dual <= one.load_index)
        and (one.speed_symbol is None or one.speed_symbol in SPEEDS_KMH)
    )


def load_capacity_kg(*, load_index: float) -> float:
    """What one tyre with this load index may carry, kg; whole, 60 to 130, else refused.

    At the pressure and speed of the tyre's own table. Source: the table above.
    """
    index = check_range("load_index", load_index, low=LEAST_INDEX, high=GREATEST_INDEX)
    if index != int(index):
        raise DomainError("load_index", load_index, "a whole number", "Type it as it stands on the tyre")
    return float(LOADS_KG[int(index) - LEAST_INDEX])


def axle_capacity_kg(*, load_index: float, tyres: float = 2) -> float:
    """What the tyres of one axle may carry together, kg: load of one times 2 to 4 tyres, else refused.

    With twin tyres `load_index` is the second of the two on the sidewall, the dual one: 112/109 is 1120 kg alone
    and 1030 kg beside another (tyre trade table, read in a reproduction).
    """
    count = check_range("tyres_per_axle", tyres, low=2, high=4)
    if count != int(count):
        raise DomainError("tyres_per_axle", tyres, "a whole number", "Count the tyres of one axle")
    return load_capacity_kg(load_index=load_index) * count


def top_speed_kmh(*, speed_symbol: str) -> float:
    """Highest speed that a speed symbol stands for, km/h; a letter that is not in the table is refused.

    F 80 to Y 300; the letters rise with the alphabet but for H, which sits after U. UN R30 and R54, read in a
    reproduction.
    """
    if speed_symbol not in SPEEDS_KMH:
        raise Unknown("speed_symbol", speed_symbol, list(SPEEDS_KMH))
    return SPEEDS_KMH[speed_symbol]


def overall_diameter_m(*, width_mm: float, aspect_percent: float | None, rim_code: float) -> float:
    """Design diameter of a tyre, m: D = d + 2 H, H = S1 Ra / 100, d = 25.4 mm per rim code.

    Width 100 to 460 mm, aspect 20 to 110 %, rim code 8 to 30, else refused; without an aspect it is not known.
    New, unloaded. Source: UN R30 6.1.2 (from memory).
    """
    width = check_range("width_mm", width_mm, low=100.0, high=460.0, unit="mm")
    rim = check_range("rim_code", rim_code, low=8.0, high=30.0)
    if aspect_percent is None:
        raise NotKnown("aspect_percent", "the overall diameter")
    aspect = check_range("aspect_percent", aspect_percent, low=20.0, high=110.0, unit="%")
    return (INCH_MM * rim + 2 * width * aspect / 100) / 1000


def circumference_m(*, diameter_m: float) -> float:
    """Way of one turn of the unloaded tyre, m: pi D. 0.3 to 2 m, else refused. Geometry.

    A loaded tyre rolls on a little less; that it is the same share less for two sizes is assumed wherever they
    are compared.
    """
    return pi * check_range("diameter_m", diameter_m, low=0.3, high=2.0, unit="m")


def revolutions_per_km(*, diameter_m: float) -> float:
    """Turns of the unloaded tyre in one km: 1000 / (pi D). Ranges as `circumference_m`."""
    return 1000 / circumference_m(diameter_m=diameter_m)


def odometer_factor(
    *,
    from_diameter_m: float,
    to_diameter_m: float,
    factor: float = 1.0,
    factor_u: float = 0.0,
    from_u_m: float = 0.0,
    to_u_m: float = 0.0,
) -> Factor:
    """True km per indicated km after a change of tyre size: k' = k D' / D, larger tyres more.

    (u'/k')^2 = (u/k)^2 + (u_D/D)^2 + (u_D'/D')^2; the errors are independent, u >= 0. `factor` (0.5 to 2) is what
    was true before; diameters 0.3 to 2 m; else refused. It says nothing of a speedometer set anew. Geometry; that
    the loaded radius keeps its share of the diameter is assumed.
    """
    old = check_range("from_diameter_m", from_diameter_m, low=0.3, high=2.0, unit="m")
    new = check_range("to_diameter_m", to_diameter_m, low=0.3, high=2.0, unit="m")
    before = check_range("factor", factor, low=0.5, high=2.0)
    shares = (
        check_range("factor_u", factor_u, low=0.0) / before,
        check_range("from_u_m", from_u_m, low=0.0, unit="m") / old,
        check_range("to_u_m", to_u_m, low=0.0, unit="m") / new,
    )
    after = before * new / old
    return Factor(after, after * sqrt(sum(one * one for one in shares)))


def highest_reading_kmh(*, true_speed_kmh: float) -> float:
    """The most that a speedometer may show at a true speed, km/h: 1.1 V + 4; the least is V itself.

    0 to 300 km/h, else refused. UN R39 5.3; ADR 18/03 applies the same rule (title and scope read in a
    reproduction).
    """
    return 1.1 * check_range("true_speed_kmh", true_speed_kmh, low=0.0, high=300.0, unit="km/h") + 4


def fitted(
    *, tyre_size: str | None = None, tyre_load_index: float | None = None, tyres_per_axle: float | None = None
) -> Fitted:
    """What a plate's tyres may carry and measure; refuses nothing: what it cannot tell is None.

    `tyre_load_index` is the index that holds for this fitting and goes before the size's own; beside a size that
    states both indices, the single one means the dual one where there are more than two tyres on the axle (2 unless
    said). A size with the single index alone does not tell what twin tyres carry. Table as `load_capacity_kg`.
    """
    read = _read(tyre_size)
    tyres = 2 if tyres_per_axle is None else tyres_per_axle
    index = _index(read, tyre_load_index, tyres)
    known = index is not None and LEAST_INDEX <= index <= GREATEST_INDEX and tyres in (2, 3, 4)
    tyre_kg = load_capacity_kg(load_index=index) if known and index is not None else None
    return Fitted(
        designation=read,
        load_index=index,
        tyre_kg=tyre_kg,
        axle_kg=None if tyre_kg is None else tyre_kg * tyres,
        diameter_m=_diameter(read),
    )


def _index(read: Designation | None, stated: float | None, tyres: float) -> int | None:
    """The index that holds for one tyre of this fitting."""
    single, dual = (read.load_index, read.load_index_dual) if read is not None else (None, None)
    if stated is not None and (tyres <= 2 or dual is None or stated != single):
        return int(stated) if float(stated).is_integer() else None
    return dual if tyres > 2 else single


def _diameter(read: Designation | None) -> float | None:
    if read is None or read.aspect_percent is None:
        return None
    return overall_diameter_m(
        width_mm=read.width_mm, aspect_percent=read.aspect_percent, rim_code=read.rim_code
    )


def _read(tyre_size: str | None) -> Designation | None:
    try:
        return parse_designation(text=tyre_size) if tyre_size and tyre_size.strip() else None
    except DomainError:
        return None
