#!/bin/sh
# The output of dapple plan, and the input that it refuses.
set -u
. "$(dirname "$0")/program.sh"

write_set set.toml 's/^source_mm.*/source_mm = 30.0\nsource = "tungsten"\ncct_k = 3200\npower_w = 650\ncircuit = "A"/'
cat >>set.toml <<'END'

[power]
volts = 230
circuit_a = 3

[[glass]]
name = "ball"
form = "ball"
position = [0.8, 1.4, 0.6]
diameter_mm = 100
END
"$dapple" plan set.toml -o out >table 2>stderr
expect "exit code" 0 $?
expect "where the sheet goes" "results: out/set.plan.pdf, .svg, .png, .json" "$(cat stderr)"
expect "where the lamp stands and what its axis meets" \
    "key      spot    1.00   2.00   1.00  2.00    0.00   0.50  -1.00  floor 3.59" \
    "$(grep '^key  *spot' table)"
expect "the power that it draws" "key      mains   650 W  2.83 A    A" "$(grep '^key  *mains' table)"
expect "the load on its circuit" "A        1         650 W  2.83 A   94 % of 3 A" \
    "$(grep '^A  ' table)"
expect "three cautions" "- heat - load - glare" \
    "$(sed -n 's/^\(- [^:]*\):.*/\1/p' table | tr '\n' ' ' | sed 's/ $//')"
expect "the thing that is too near" '    key: "ball" is 0.66 m away, nearer than 1.00 m, our own figure' \
    "$(grep '"ball"' table)"
"$dapple" plan set.toml --json >printed
expect "the file has what --json prints" "" "$(diff printed out/set.plan.json)"
expect "current in the JSON" '      "current_a": 2.826,' "$(grep current_a printed | head -n 1)"

# ---- The day sheet -------------------------------------------------------------------------------

write_set sheet.toml 's/^source_mm.*/source_mm = 30.0\npower_w = 60/'
cat >>sheet.toml <<'END'

[power]
mains = [[-1.9, 1.9], [1.9, 1.9]]

[[fixture]]
name = "rim"
position = [-1.25, 1.8, -1.5]
aim = [0.0, 1.0, 0.0]
output_lm = 300
beam_angle_deg = 30.0
supply = "battery"

[[meter]]
name = "table"
position = [0.1, 0.7, -0.6]
facing = [1.0, 2.0, 1.0]
END
"$dapple" plan sheet.toml -o day --passes 4 --json >printed 2>stderr
expect "day sheet: exit code" 0 $?
expect "day sheet: four files" "day/sheet.plan.json
day/sheet.plan.pdf
day/sheet.plan.png
day/sheet.plan.svg" "$(find day -type f | sort)"
expect "the PDF is a PDF" "%PDF" "$(head -c 4 day/sheet.plan.pdf)"
expect "the PNG is an A4 page at 150 dpi" "1240 x 1754" \
    "$(iinfo day/sheet.plan.png | sed 's/.* : *\([0-9]*\) x *\([0-9]*\),.*/\1 x \2/')"
"$dapple" meter sheet.toml --passes 4 --json >meter.json 2>stderr
# lux_of FILE: all readings, in order.
lux_of() {
    sed -n 's/.*"lux": \([^,]*\),.*/\1/p' "$1" | sort
}
expect "three readings" 3 "$(lux_of meter.json | wc -l)"
expect "the targets are what dapple meter reads" "$(lux_of meter.json)" "$(lux_of printed)"
if command -v pdftotext >/dev/null; then
    pdftotext -layout day/sheet.plan.pdf text
    sed 's/  */ /g; s/^ //' text >squeezed
    # has CLAIM TEXT: the sheet has one line that begins with the text.
    has() {
        expect "$1" 1 "$(grep -c "^$2" squeezed)"
    }
    # The room is 4 x 4 m, so its left and back walls are at -2 m.
    has "the sheet has the camera's place and aim" "cam camera 2.00 3.50 1.20 2.00 0.00 1.00 "
    has "the sheet has the first lamp's place and aim" "1 key 3.00 3.00 2.00 2.00 1.00 0.50 "
    has "the sheet has the second lamp's place and aim" "2 rim 0.75 0.50 1.80 2.00 2.00 1.00 "
    has "the sheet has the meter's place" "M1 table 2.10 1.40 0.70 3.00 3.00 2.00 "
    # 2.0 m down, then 0.9 m each way to the socket at (1.9, 1.9).
    has "the sheet counts the cable" "1 mains cable 5 m key: 3.3 m"
    f_stop=$(sed -n 's/.*"f_stop": "\(.*\)".*/\1/p' meter.json)
    has "the sheet has the target with all lights on" "all together f/$f_stop "
else
    echo "pdftotext is not installed; the text of the PDF was not checked"
fi

# ---- What is brought, and what is said twice ------------------------------------------------------

write_set brought.toml 's/^source_mm.*/source_mm = 30.0\nsource = "tungsten"\ncct_k = 3200\ndimmer = 0.5/'
cat >>brought.toml <<'END'

[[stand_in]]
name = "sitter"
position = [-0.5, 0.0, -0.9]
pose = "seated"
height_m = 1.6

[[column]]
name = "stool"
position = [-0.5, 0.0, -1.32]
diameter_m = 0.35
height_m = 0.37

[[column]]
name = "table"
position = [1.4, 0.0, -1.4]
size_m = [1.0, 0.7]
height_m = 0.75
carry = true

[[column]]
name = "ledge"
position = [-1.7, 0.0, 0.0]
size_m = [0.3, 0.3]
height_m = 0.5
carry = false

[[column]]
name = "pillar"
position = [-1.7, 0.0, 1.7]
diameter_m = 0.3

[[meter]]
name = "face"
position = "figure face"
facing = "key"
END
"$dapple" plan brought.toml >table 2>stderr
expect "what is brought is counted, and what is part of the room is not" \
    "1 stool, 0.35 m round, 0.37 m high 1 table, 1.00 x 0.70 m, 0.75 m high" \
    "$(grep 'stool\|table,\|ledge\|pillar' table | xargs)"
expect "light at full and as set, and the colour of dimmed tungsten with its reason" \
    "key tungsten 20° 800 400 3200 K, as set 29 Tungsten that is dimmed is warmer than at full." \
    "$(sed -n 's/^\(key  *tungsten  *20°  *800  *400\)  .*\(3200 K, as set 29\).*/\1 \2/p; s/^as set:.* \(Tungsten.*\)/\1/p' table | xargs)"
expect "meters that were not read" "What the light meter must read: not read yet; -o DIR reads the meters" \
    "$(grep 'light meter must' table)"
"$dapple" plan brought.toml -o day --passes 4 >table 2>stderr
expect "what the meter must read is printed too" "key all together" \
    "$(sed -n '/^What the light meter/,/^$/s/^\(key\|all together\)  *f.*/\1/p' table | xargs)"
expect "where the figure's face and seat are" \
    'figure "sitter": seated, 1.60 m tall; face at [-0.5, 1.1, -1.32]; needs a seat 38 cm high with its middle at x = -0.5, z = -1.32' \
    "$("$dapple" check brought.toml | grep '^figure')"
expect "the same as JSON" '"seat": [ -0.5, 0.38, -1.32 ]' \
    "$("$dapple" check brought.toml --json | sed -n '/"seat"/,/]/p' | xargs -0 | tr -d '\n' | sed 's/  */ /g; s/^ //')"

write_set bad.toml '1i[power]\nvolts = 0\n'
"$dapple" plan bad.toml >printed 2>stderr
expect "bad input: exit code" 2 $?
expect "bad input: one line" "bad.toml:2:1: power: volts: is 0; must be from 1 to 1000" \
    "$(cat stderr)"

exit $((failures > 0))
