"""Volume and density with temperature: fuel to 15 C, and water."""

from math import exp

from .errors import check_range

DENSITIES = (653.0, 1075.0)  # at 15 C, kg/m3: where the table begins and ends

# Highest density at 15 C of a product group, kg/m3, and its K0, K1, or A, B for the transition zone.
# ASTM D1250-80 / API 2540 chapter 11.1 table 54B, ISO 91-1 (seen in reproductions that agree).
_GASOLINE, _TRANSITION, _JET = (346.4228, 0.4388), (-0.00336312, 2680.3206), (594.5418, 0.0)
_FUEL_OIL = (186.9696, 0.4862)
_GASOLINE_TO, _TRANSITION_TO, _JET_TO = 770.25, 787.75, 838.75  # between the printed ends of two groups


def expansion(*, density_15_kg_per_m3: float) -> float:
    """Coefficient of thermal expansion at 15 C, per C, of a fuel with this density at 15 C.

    a = K0/rho^2 + K1/rho; in the transition zone a = A + B/rho^2. 653 to 1075 kg/m3, else refused. Diesel
    straddles the last boundary, where the two groups differ by 0.06 %.
    """
    rho = check_range(
        "density_15_kg_per_m3", density_15_kg_per_m3, low=DENSITIES[0], high=DENSITIES[1], unit="kg/m3"
    )
    if _GASOLINE_TO < rho < _TRANSITION_TO:
        constant, square = _TRANSITION
        return constant + square / rho**2
    k0, k1 = _GASOLINE if rho <= _GASOLINE_TO else _JET if rho < _JET_TO else _FUEL_OIL
    return k0 / rho**2 + k1 / rho


def volume_factor(*, temperature_c: float, density_15_kg_per_m3: float) -> float:
    """Volume at 15 C over volume at this temperature: exp(-a dt (1 + 0.8 a dt)), dt = t - 15.

    -40 to 90 C, else refused. Density falls by the same factor. Source: as `expansion`.
    """
    dt = check_range("temperature_c", temperature_c, low=-40.0, high=90.0, unit="C") - 15.0
    a_dt = expansion(density_15_kg_per_m3=density_15_kg_per_m3) * dt
    return exp(-a_dt * (1 + 0.8 * a_dt))


def fuel_factor(
    *, temperature_c: float, temperature_u_c: float, density_15_kg_per_m3: float
) -> tuple[float, float]:
    """`volume_factor` and its u to first order, factor a (1 + 1.6 a dt) u_t; 0 <= u_t <= 50 C, else refused."""
    u_t = check_range("temperature_u_c", temperature_u_c, low=0.0, high=50.0, unit="C")
    factor = volume_factor(temperature_c=temperature_c, density_15_kg_per_m3=density_15_kg_per_m3)
    a = expansion(density_15_kg_per_m3=density_15_kg_per_m3)
    return factor, factor * a * abs(1 + 1.6 * a * (temperature_c - 15.0)) * u_t


def water_density(*, temperature_c: float) -> float:
    """Density of air-free water at 101.325 kPa, kg/L, from 0 to 40 C, else refused.

    a5 (1 - (t + a1)^2 (t + a2) / (a3 (t + a4))): CIPM 2001, Tanaka et al., Metrologia 38:301 (constants from
    memory, checked against IAPWS-95 to 0.0012 kg/m3).
    """
    t = check_range("temperature_c", temperature_c, low=0.0, high=40.0, unit="C")
    fall = (t - 3.983035) ** 2 * (t + 301.797) / (522528.9 * (t + 69.34881))
    return 0.99997495 * (1 - fall)
