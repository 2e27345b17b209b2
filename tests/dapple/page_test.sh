#!/bin/sh
# dapple sheet --page: the page in a browser shows what dapple rebalance computes.
set -u
. "$(dirname "$0")/program.sh"
python=/usr/bin/python3
[ -x "$python" ] || python=python3
browser() {
    "$python" "$here/page_browser.py" "$@"
}

write_set set.toml 's/frame_px = .*/frame_px = [120, 80]/; s/^output_lm.*/output_lm = 800\ncct_k = 4300\ndimmer = 0.6/'
cat >>set.toml <<'END_SET'

[[fixture]]
name = "bulb <1>"
form = "bare"
source = "tungsten"
position = [-1.0, 1.5, 0.5]
cct_k = 3200
output_lm = 500

[[fixture]]
name = "sky"
form = "panel"
panel_m = [0.5, 0.5]
source = "daylight"
position = [0.5, 2.2, 0.0]
aim = [0.0, 0.0, -1.0]
output_lm = 300

[[window]]
name = "dusk"
wall = "wall_left"
centre_m = [-0.5, 1.6]
size_m = [0.8, 0.8]
luminance_cd_m2 = 40
cct_k = 9000

[[surface]]
name = "wall_back"
reflectance = [0.6, 0.2, 0.1]

[[meter]]
name = "face"
position = [0.0, 1.0, -1.0]
facing = [0.0, 1.2, 1.5]

[[region]]
name = "wall"
surface = "wall_back"
END_SET
"$dapple" render set.toml -o out --passes 6 >/dev/null 2>&1
"$dapple" sheet out --page -o page >printed 2>stderr
expect "exit code" 0 $?
expect "one page, and whose it is" "page/sheet.html page/sheet.json" "$(xargs <printed)"
[ -f page/sheet.html ] || exit 1
expect "nothing on standard error" "" "$(cat stderr)"
expect "nothing from elsewhere" "" "$(grep -o 'https*://[^"]*' page/sheet.html)"
expect "names cannot break the page" 0 "$(grep -c 'bulb <1>' page/sheet.html)"

refused() {
    name=$1
    line=$2
    shift 2
    "$dapple" sheet "$@" --page -o none >printed 2>stderr
    expect "$name: exit code" 2 $?
    expect "$name: one line" "$line" "$(cat stderr)"
}
mkdir empty
refused "no film" "empty: holds no .exr; give the folder of a render" empty
refused "no EXR" "set.toml: is not an EXR, or is damaged" set.toml

# rebalanced FOLDER OPTIONS
rebalanced() {
    folder=$1
    shift
    "$dapple" rebalance out/set.exr -o "$folder" "$@" >/dev/null 2>&1
}
rebalanced same
rebalanced mixed --set key.dimmer=1 --set key.cct_k=3200 --set "bulb <1>.dimmer=0.21" \
    --set sky.dimmer=0.45
rebalanced alone --set "bulb <1>.dimmer=0.05" --solo "bulb <1>"
rebalanced beyond --off sky --set key.cct_k=9000
for how in webgl2 canvas; do
    message=$(browser compare page/sheet.html $how \
        '{}' same/set.png same/set.stats.json \
        '{"key": {"dimmer": 1, "cct_k": 3200}, "bulb <1>": {"dimmer": 0.21}, "sky": {"dimmer": 0.45}}' \
        mixed/set.png mixed/set.stats.json \
        '{"bulb <1>": {"solo": true, "dimmer": 0.05}}' alone/set.png alone/set.stats.json \
        '{"sky": {"mute": true}, "key": {"cct_k": 9000}}' beyond/set.png beyond/set.stats.json 2>&1)
    code=$?
    if [ $code -eq 77 ]; then
        echo "$message"
        exit 77
    fi
    expect "the page by $how shows what rebalance computes" "" "$message"
done
expect "keyboard, labels, readings, comparing" "" "$(browser uses page/sheet.html 2>&1)"

exit $((failures > 0))
