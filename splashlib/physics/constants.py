"""Every physical constant of the library, each with its unit and its source.

Fluids are taken at 20 C and 101.325 kPa. A value marked "class value" stands for a range, given with it.
"""

# Gravity -------------------------------------------------------------------------------------------------
GRAVITY = 9.81
"""Acceleration of free fall [m/s2]; 9.780 (equator) to 9.832 (poles), standard 9.80665 (3rd CGPM 1901)."""

# Air -----------------------------------------------------------------------------------------------------
AIR_DENSITY = 1.204
"""[kg/m3] dry air at 20 C: ideal gas law with M = 28.96 g/mol."""

AIR_VISCOSITY = 1.81e-5
"""[Pa s] air at 20 C: W. M. Haynes (ed.), CRC Handbook of Chemistry and Physics, "Viscosity of gases"."""

AIR_FREE_PATH = 6.62e-8
"""[m] mean free path in air at 20 C, 1 atm: K. V. Beard, J. Atmos. Sci. 33 (1976) 851-864, below eq. 2."""

# Water ---------------------------------------------------------------------------------------------------
WATER_DENSITY = 998.2
"""[kg/m3] water at 20 C: W. Wagner, A. Pruss, J. Phys. Chem. Ref. Data 31 (2002) 387 (IAPWS-95)."""

WATER_VISCOSITY = 1.002e-3
"""[Pa s] water at 20 C: M. L. Huber et al., J. Phys. Chem. Ref. Data 38 (2009) 101 (IAPWS 2008)."""

WATER_SURFACE_TENSION = 0.07275
"""[N/m] clean water against air at 20 C: IAPWS R1-76(2014). A trace of soap takes it to 0.03-0.04."""

WATER_INDEX = 1.333
"""[-] refractive index of water at 20 C, 589 nm: IAPWS R9-97."""

# Milk ----------------------------------------------------------------------------------------------------
# Class values for whole milk at 20 C: P. Walstra, J. T. M. Wouters, T. J. Geurts, "Dairy Science and
# Technology", 2nd ed. (2006), the table of physical properties. Skimmed milk is thinner, cream far thicker.
MILK_DENSITY = 1030.0
"""[kg/m3] class value, 1027-1033."""

MILK_VISCOSITY = 2.0e-3
"""[Pa s] class value, 1.7-2.2."""

MILK_SURFACE_TENSION = 0.047
"""[N/m] class value, 0.044-0.050."""

# Glass ---------------------------------------------------------------------------------------------------
GLASS_INDEX = 1.52
"""[-] soda-lime glass, 589 nm; class value, 1.51-1.53: the float glass of EN 572-1 stands in this range."""

GLASS_DENSITY = 2500.0
"""[kg/m3] soda-lime glass: EN 572-1."""

# Lengths and numbers, exact ---------------------------------------------------------------------------------
INCH = 0.0254
"""[m] exact: international yard and pound agreement, 1959."""

FOOT = 12 * INCH
"""[m] exact, 0.3048."""

GOLDEN_SECTION = (5**0.5 - 1) / 2
"""[-] 0.618: multiples of it, whole parts dropped, fill an interval evenly however many there are."""

# Light and seeing ----------------------------------------------------------------------------------------
METER_CONSTANT = 250.0
"""C [lx s] of incident light on a flat receptor, N^2 = E t S / C: ISO 2720:1974, which allows 240-400."""

GREEN_WAVELENGTH = 550e-9
"""[m] the middle of the visible range, near the peak of the eye's sensitivity (555 nm, CIE V(lambda))."""

EYE_RESOLUTION = 2.908882e-4
"""[rad] one minute of arc, pi/10800: the detail that a normal eye (6/6 vision) just separates."""

READING_DISTANCE = 0.25
"""[m] the conventional distance of distinct vision, at which a hand-held print is judged."""
