// Set files that together use every key.
#pragma once

#include <string>

inline const std::string kFullExample = R"(title = "Boathouse, blue hour"

[room]
model = "boathouse.obj"
unit = "m"
up = "y"

[camera]
position = [5.2, 1.5, 0.4]
aim = [0.0, 1.2, 0.0]
focal_length_mm = 35.0
sensor_mm = [36.0, 24.0]
frame_px = [960, 640]
f_number = 4.0
shutter_s = 0.0166667
iso = 800
focus_m = 5.0
white_k = 4300

[power]
volts = 230
circuit_a = 16

[[fixture]]
name = "net"
form = "spot"
source = "led"
position = [-1.0, 1.6, 2.5]
aim = [-5.9, 1.4, 0.5]
beam_angle_deg = 20.0
field_angle_deg = 27.0
cct_k = 5600
duv = 0.0
output_lm = 2600
source_mm = 12.0
dimmer = 1.0
gel = { shift_mired = 0, stops = 0.0 }
photometry = "net.ies"
turn_deg = 10
beam_range_deg = [10, 50]
field_range_deg = [15, 60]
focus = "spot"
wide_angle = { factor = 1.5, loss_stops = 0.3 }
output_range_lm = [1500, 2600]
snoot_mm = [60, 120]
stand = true
power_w = 40
supply = "battery"
housing_mm = [110, 180]

[[fixture]]
name = "wash"
form = "panel"
source = "tungsten"
position = [0, 2, 0]
aim = [0, 0, 0]
lux = { value = 1800, at_m = 3.0 }
dimmer = 0.5
dimmer_warms = true
panel_m = [0.3, 0.6]
barn_doors_deg = [90, 60, 120, 180]
gel = { file = "rose.csv", stops = 0.5 }

[[fixture]]
name = "bulb"
form = "bare"
source = "flat"
position = [0, 2, 1]
peak_cd = 100
circuit = "A"
clearance_m = 0.6

[[glass]]
name = "ribbed jar"
form = "jar"
position = [-1.5, 1.45, 2.35]
turn_deg = 0.0
tilt_deg = 0.0
height_mm = 260
diameter_mm = 120
width_mm = 100
wall_mm = 3.0
ribs = 24
rib_depth_mm = 1.5
glass = "soda-lime"
tint = "clear"
roughness = 0.3
frosted = "inside"
priority = 10
fill = { liquid = "water", level = 0.6 }

[[glass]]
name = "cut block"
model = "block.obj"
unit = "mm"
up = "z"
position = [0, 1, 0]

[[diffuser]]
name = "corner cloth"
position = [1, 1, 1]
aim = [0, 1, 0]
size_m = [0.9, 0.9]
transmission = 0.55
spread_deg = 45.0
direct = 0.05
reflectance = 0.4

[[flag]]
name = "black"
position = [1, 1, 2]
aim = [0, 1, 0]
diameter_m = 0.5

[[bounce]]
name = "silver"
position = [1, 1, 3]
aim = [0, 1, 0]
size_m = [1.2, 0.8]
reflectance = [0.9, 0.88, 0.85]
roughness = 0.3

[[stand_in]]
name = "figure"
position = [0, 0, 0]
turn_deg = 30
height_m = 1.68
pose = "seated"
skin = [0.35, 0.25, 0.2]
hair = "fair"
gloss = 1.0
dress = { transmission = 0.4, spread_deg = 40, direct = 0.1, reflectance = 0.2 }

[[window]]
name = "pane sky"
surface = "sky"
luminance_cd_m2 = 15
cct_k = 12000

[[column]]
name = "pillar"
position = [1.2, 0, -0.8]
size_m = [0.3, 0.4]
height_m = 2.5
reflectance = 0.6

[[surface]]
name = "slipway"
reflectance = [0.05, 0.05, 0.05]
roughness = 0.25
coat = 1.0

[[surface]]
name = "cape"
transmission = 0.3
spread_deg = 30
direct = 0.02

[[surface]]
name = "bracket"
metal = true
roughness = 0.4

[[surface]]
name = "pane"
glass = "soda-lime"
tint = "green"
thin = true
priority = 3

[[meter]]
name = "face, key side"
position = [0, 1.6, 0]
facing = [1, 1.6, 1]
receptor = "dome"
receptor_mm = 40

[[region]]
name = "back wall"
surface = "planks"
rect_px = [0, 0, 480, 320]
)";

// The keys that only a room of size_m may have.
inline const std::string kTapeExample = R"([room]
size_m = [4.0, 5.0, 2.8]
reflectance = 0.3

[camera]
position = [0, 1.5, 2]
aim = [0, 1, 0]

[[window]]
wall = "wall_left"
centre_m = [-0.5, 1.6]
size_m = [1.2, 1.4]
luminance_cd_m2 = 3

[[door]]
name = "door"
wall = "wall_back"
centre_m = [1.5, 1.05]
size_m = [0.9, 2.1]
reflectance = [0.1, 0.05, 0.04]

[[column]]
position = [-1.2, 0, -0.8]
diameter_m = 0.3
)";
