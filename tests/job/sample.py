"""An invented job and unit sheet, as a practitioner would write them."""

SHEET = """\
[unit]
model          = "Invented 8 kW outdoor unit"
heat_source    = "outdoor air"
refrigerant    = { name = "R32", charge = "1.6 kg" }
mass           = "124 kg"
size           = { width = "1250 mm", depth = "430 mm", height = "870 mm" }
sound_power    = { day = "60 dB", night = "54 dB" }
rating = [
  { air = "-7 degC", flow = "35 degC", output = "7.4 kW", input = "2.7 kW" },
  { air = "7 degC",  flow = "35 degC", output = "8.4 kW", input = "1.8 kW" },
]
highest_flow_temperature = "58 degC"

[unit.water]
minimum_flow        = "20 L/min"
minimum_free_volume = "24 L"
pressure_loss       = { flow = "22 L/min", loss = "18 kPa" }
pump_head           = [ { flow = "10 L/min", head = "72 kPa" } ]
glycol_allowed      = { allowed = true, highest_fraction = "30 %", needs_flow_switch = true }
supplied            = ["return isolation valve with filter"]

[unit.electricity]
phases          = 1
device_type     = "C"
backup_heater   = { fitted = true, power = "3 kW", device_rating = "16 A" }
booster_contactor = "in the unit"
glands          = { power = 2, control = 2 }

[unit.clearance]
top   = "400 mm"

[unit.placing]
feet = { count = 3, height = "150 mm" }
protective_zone = []
coil = "untreated"
"""

JOB = """\
unit_sheet = "unit-sheet.toml"

[job]
title  = "Bungalow at the end of an invented lane"
region = "GB"
stage  = "design"
date   = 2026-11-02

[site]
design_air_temperature = "-3.5 degC"
distance_to_coast = "180 m"
exposure          = "open shore"
snow_depth        = "120 mm"
prevailing_wind   = "south-west"

[building]
occupants = 4
rooms = [ { name = "living room", heat_loss = "2.1 kW", temperature = "21 degC" } ]

[placement]
on           = "ground"
clearance    = { back = "300 mm", front = "4 m", top = "open" }
base         = { kind = "concrete slab", level = true, frost_free = true }
hears        = [ { name = "bedroom window", reflecting_surfaces = 2, screened = "not" } ]

[water]
fluid            = "water"
treatment        = ["inhibitor"]
temperature_difference = "5 K"
filling          = { hardness = "1.9 mmol/L", pressure = "1.3 bar" }

[[water.run]]
name       = "flow"
pipe       = "copper 28 x 0.9"
length     = "7 m"
place      = "outdoors"
insulation = { thickness = "19 mm", conductivity = "0.038 W/(m.K)", sun_cover = true }
always_open = true

[[water.emitter]]
kind       = "radiator"
shut_by    = "thermostatic valve"

[water.volume_vessel]
volume     = "40 L"
connection = "in series, return"

[water.frost]
antifreeze_valves = [ { on = "flow", lowest_point = true }, { on = "return" } ]
glycol            = "none"

[hot_water]
cylinder = { volume = "210 L", coil_area = "2.4 m2", matched = false, has = ["sensor pocket"] }
booster  = { power = "3 kW", switched_by = "unit" }

[electricity]
earthing = "TN-C-S"
external_loop_impedance = "0.28 ohm"

[[electricity.circuit]]
serves = ["outdoor unit", "controls"]
device = { kind = "circuit-breaker", type = "C", rating = "32 A" }
cable  = { conductor = "6 mm2", insulation = "XLPE", method = "C", ambient = "30 degC" }

[[electricity.circuit]]
device = { kind = "circuit-breaker", type = "B", rating = "16 A" }

[controls]
second_heat_source = "none"

[[waiver]]
rule   = "clearances/top"
reason = "open to the sky"
by     = "designer of record"
until  = 2027-11-02
"""
