#!/bin/sh
# dapple rebalance: its files, and the input that it refuses.
set -u
. "$(dirname "$0")/program.sh"

write_set set.toml
cat >>set.toml <<'END_SET'

[[fixture]]
name = "fill"
form = "bare"
source = "tungsten"
position = [-1.0, 1.5, 0.5]
cct_k = 3200
output_lm = 400

[[meter]]
name = "face"
position = [0.0, 1.0, -1.0]
facing = [0.0, 1.2, 1.5]
END_SET
"$dapple" render set.toml -o out --passes 4 >/dev/null 2>&1

"$dapple" rebalance out/set.exr -o same >printed 2>stderr
expect "exit code" 0 $?
expect "nothing on standard error" "" "$(cat stderr)"
expect "the same files as render" "same/set.png same/set.exr same/set.stats.json" \
    "$(tr '\n' ' ' <printed | sed 's/ $//')"
expect "without settings nothing changes" "" "$(diff out/set.stats.json same/set.stats.json)"

lux() {
    sed -n '/"meters"/,$p' "$1" | grep -m 1 '"lux"' | tr -dc '0-9.'
}
"$dapple" rebalance out/set.exr -o half --set key.dimmer=0.5 --off fill --raw >/dev/null 2>stderr
expect "dimmers are exact: no note" "" "$(cat stderr)"
"$dapple" rebalance out/set.exr -o solo --solo key >/dev/null 2>&1
expect "half the light of the key alone is half its reading" "0.50000" \
    "$(echo "$(lux half/set.stats.json) $(lux solo/set.stats.json)" | awk '{printf "%.5f", $1 / $2}')"
"$dapple" rebalance half/set.exr -o back --set key.dimmer=1 >/dev/null 2>&1
expect "a rebalanced film can be rebalanced" "1.00000" \
    "$(echo "$(lux back/set.stats.json) $(lux solo/set.stats.json)" | awk '{printf "%.5f", $1 / $2}')"

"$dapple" rebalance out/set.exr -o warm --set fill.dimmer=0.3 >/dev/null 2>stderr
expect "a warmer lamp is noted" "note: fill: its new colour is exact on grey and on" \
    "$(cut -c 1-50 stderr)"

# refused NAME LINE ARGUMENTS: one line, exit code 2, no file.
refused() {
    name=$1
    line=$2
    shift 2
    "$dapple" rebalance "$@" -o none >printed 2>stderr
    expect "$name: exit code" 2 $?
    expect "$name: one line" "$line" "$(cat stderr)"
    expect "$name: no file" "" "$(ls none 2>/dev/null)"
}
refused "unknown fixture" '--off: there is no fixture "kee"; did you mean key?' out/set.exr --off kee
refused "value out of range" "--set key.dimmer=-1: is -1; must be from 0 to 1000" \
    out/set.exr --set key.dimmer=-1
refused "a fixture that is off" \
    "fill: is dark in this film, so there is no light to scale; render the set with its dimmer above 0" \
    half/set.exr --set fill.dimmer=1
refused "missing film" "none.exr: cannot be read: No such file or directory" none.exr
refused "no EXR" "set.toml: is not an EXR, or is damaged" set.toml
head -c 20000 out/set.exr >part.exr
"$dapple" rebalance part.exr -o none >printed 2>stderr
expect "truncated film: exit code" 2 $?
expect "truncated film: one line" "1 part.exr: is truncated or damaged" \
    "$(wc -l <stderr | tr -d ' ') $(cut -c 1-33 stderr)"
"$dapple" rebalance out/set.exr -o out >printed 2>stderr
expect "the film itself is not overwritten" \
    "2 out/set.exr: is the film that is read; give another folder with -o" "$? $(cat stderr)"

exit $((failures > 0))
