#!/bin/sh
# The output of dapple meter, and the input that it refuses.
set -u
. "$(dirname "$0")/program.sh"

# meters: writes the small set with a bare lamp, a glass ball and the lines of standard input.
meters() {
    write_set set.toml '/beam_angle_deg\|field_angle_deg/d; s/^name = "key"/name = "key"\nform = "bare"/'
    cat >>set.toml <<'END'

[[glass]]
name = "ball"
form = "ball"
position = [-1.0, 0.5, -1.0]
diameter_mm = 200
END
    cat >>set.toml
}
# refused CLAIM LINE ARGUMENTS...: one line, exit code 2, nothing on standard output.
refused() {
    claim=$1
    line=$2
    shift 2
    out=$("$dapple" meter "$@" 2>"$work/stderr")
    expect "$claim: exit code" 2 $?
    expect "$claim: nothing on standard output" "" "$out"
    expect "$claim" "$line" "$(cat "$work/stderr")"
}

# ---- Readings ------------------------------------------------------------------------------------

meters <<'END'
[[meter]]
name = "under the lamp"
position = [1.0, 1.0, 1.0]
facing = [1.0, 2.0, 1.0]
[[meter]]
name = "face"
receptor = "dome"
position = [0.0, 1.6, 0.0]
facing = [1.0, 2.0, 1.0]
[[meter]]
name = "table top"
position = [0.0, 0.7, 0.5]
facing = [0.0, 2.0, 0.5]
size_m = [1.0, 0.6]
END
"$dapple" meter set.toml --noise 0.5 >table 2>stderr
expect "exit code" 0 $?
expect "a line for each meter" "under the lamp
face
table top" "$(sed -n 's/^\([a-z][a-z ]*[a-z]\)   *[0-9].*/\1/p' table)"
expect "a dome is marked as one" 1 "$(grep -c 'face .*dome$' table)"
expect "below each meter a line for the fixture" 3 "$(grep -c '^  key ' table)"

"$dapple" meter set.toml --noise 0.5 --json -o out >json 2>stderr
expect "--json prints what -o writes to a file" "$(cat json)" "$(cat out/set.meters.json)"
# 800 lm from a bare lamp are 63.66 cd, and 63.66 lx at 1 m. The box room reflects some more.
lux=$(sed -n 's/^ *"lux": \([0-9.]*\),/\1/p' json | head -n 1)
expect "the lamp's own light and a little of the room's" 1 \
    "$(echo "$lux" | awk '{ print ($1 > 63.66 && $1 < 100) }')"
expect "every reading has the error of --noise or less" "" \
    "$(awk '/^      "lux":/ { gsub(",", ""); lux = $2 }
            /^      "lux_stderr":/ { gsub(",", ""); if ($2 > 0.005 * lux) print lux, $2 }' json)"
"$dapple" meter set.toml --passes 16 --threads 1 --json 2>stderr | grep lux >one
"$dapple" meter set.toml --passes 16 --threads 2 --json 2>stderr | grep lux >two
expect "one thread and two read the same" "$(cat one)" "$(cat two)"
[ -s one ]
expect "those readings are not empty" 0 $?
"$dapple" render set.toml -o out --passes 2 >/dev/null 2>&1
expect "a render's statistics have the readings too" 3 "$(grep -c '"receptor"' out/set.stats.json)"

# ---- Impossible places ---------------------------------------------------------------------------

refused_meter() {
    meters
    refused "$1" "$2" set.toml --passes 1
}

refused_meter "a meter in a solid" \
    'set.toml:25:1: meter "m": position: lies inside or behind "ball"; a meter must stand in the open' <<'END'

[[meter]]
name = "m"
position = [-1.0, 0.6, -1.0]
facing = [0.0, 2.0, 0.0]
END
refused_meter "a meter on a surface" \
    'set.toml:25:1: meter "m": position: lies on "floor"; move it a millimetre or more towards the light' <<'END'

[[meter]]
name = "m"
position = [0.0, 0.0, 0.0]
facing = [0.0, 2.0, 0.0]
END
refused_meter "a meter that faces its own position" \
    'set.toml:26:1: meter "m": facing: equals the position: the meter faces nowhere' <<'END'

[[meter]]
name = "m"
position = [0.0, 1.0, 0.0]
facing = [0.0, 1.0, 0.0]
END
refused_meter "a receptor that a surface cuts" \
    'set.toml:25:1: meter "m": position: the receptor is cut by "ball"; move it clear or make it smaller' <<'END'

[[meter]]
name = "m"
position = [-0.89, 0.6, -1.0]
facing = [-0.89, 2.0, -1.0]
receptor_mm = 50
END
refused_meter "a meter in a lamp" \
    'set.toml:25:1: meter "m": position: lies inside or behind the lamp of "key"; a meter must stand in the open' <<'END'

[[meter]]
name = "m"
position = [1.0, 2.0, 1.0]
facing = [0.0, 2.0, 0.0]
receptor_mm = 5
END
refused_meter "a meter outside the room" \
    'set.toml:25:1: meter "m": position: is outside the room: y is 3; must be from 0 to 2.6' <<'END'

[[meter]]
name = "m"
position = [0.0, 3.0, 0.0]
facing = [0.0, 2.0, 0.0]
END
write_set set.toml
refused "a set without meters" "set.toml: has no [[meter]]; give each a position and facing" set.toml

exit $((failures > 0))
