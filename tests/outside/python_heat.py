"""Film coefficients by the Python library `ht`, for comparison with ours.

Reads lines `orientation length_m surface_c air_c` and writes `rayleigh nusselt coefficient` for each.
Viscosity and conductivity of air come from `fluids` (standard atmosphere), density is that of an
ideal gas, so both the laws and the properties are independent of ours.
"""

import sys

from fluids.atmosphere import ATMOSPHERE_1976
from ht.conv_free_immersed import Nu_horizontal_plate_McAdams, Nu_vertical_plate_Churchill

PRESSURE_PA = 101325.0
GAS_CONSTANT = 287.05287
SPECIFIC_HEAT = 1006.0
GRAVITY = 9.80665


def film(orientation, length, surface_c, air_c):
    """Rayleigh number, Nusselt number and film coefficient of one plate."""
    kelvin = (surface_c + air_c) / 2.0 + 273.15
    density = PRESSURE_PA / (GAS_CONSTANT * kelvin)
    viscosity = ATMOSPHERE_1976.viscosity(kelvin)
    conductivity = ATMOSPHERE_1976.thermal_conductivity(kelvin)
    prandtl = SPECIFIC_HEAT * viscosity / conductivity
    kinematic = viscosity / density
    grashof = GRAVITY / kelvin * abs(surface_c - air_c) * length**3 / kinematic**2
    if orientation == "vertical":
        nusselt = Nu_vertical_plate_Churchill(Pr=prandtl, Gr=grashof)
    else:
        nusselt = Nu_horizontal_plate_McAdams(Pr=prandtl, Gr=grashof, buoyancy=orientation == "unstable")
    return grashof * prandtl, nusselt, nusselt * conductivity / length


for line in sys.stdin:
    orientation, length, surface_c, air_c = line.split()
    print(*(repr(float(value)) for value in film(orientation, float(length), float(surface_c), float(air_c))))
