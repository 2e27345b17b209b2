#!/bin/sh
# dapple kit lists the kit, and a set in any folder can use it.
set -u
. "$(dirname "$0")/program.sh"

expect "the list names a fixture" 1 "$("$dapple" kit | grep -c '^  led-spot-40  ')"
expect "as JSON: kind, name, about, file, line" 1 \
    "$("$dapple" kit --json | grep -c '"name": "demijohn-water"')"

expect "one entry, as a kit file has it" 'kit = "led-spot-40"' "$("$dapple" kit led-spot-40 | sed -n 2p)"
expect "one entry, with its figures" 1 "$("$dapple" kit led-spot-40 | grep -c '^source_mm = ')"
expect "one kind" "flag flag-25x40" "$("$dapple" kit flag | awk 'NR < 3 { print $1 }' | xargs)"
"$dapple" kit led-spot-4 >stdout 2>stderr
expect "an entry that is not there: exit code" 2 $?
expect "an entry that is not there" \
    "led-spot-4: there is no such entry in the kit and no such set file; did you mean led-spot-40?" \
    "$(cat stderr)"

for command in kit plan; do
    "$dapple" $command none.toml >stdout 2>stderr
    expect "$command of a set that is not there: exit code" 2 $?
    expect "$command of a set that is not there" "none.toml: no such file" "$(cat stderr)"
    expect "$command of a set that is not there: nothing else is printed" "" "$(cat stdout)"
done

mkdir -p elsewhere/kit
write_set elsewhere/set.toml '/beam_angle_deg\|field_angle_deg\|output_lm\|source_mm/d; s/^name = "key"/name = "key"\nkit = "led-spot-15"/'
"$dapple" check elsewhere/set.toml >stdout 2>stderr
expect "a set in another folder starts from the project's kit" 0 $?

cat >elsewhere/kit/mine.toml <<'END'
[[glass]]
kit = "my-jar"
about = "the jar from my kitchen"
form = "jar"
height_mm = -5
END
expect "the set's own kit is listed first" "my-jar the jar from my kitchen" \
    "$("$dapple" kit elsewhere/set.toml | sed -n 2p | xargs)"
cat >>elsewhere/set.toml <<'END'
[[glass]]
kit = "my-jar"
position = [0.0, 0.0, 0.0]
END
"$dapple" check elsewhere/set.toml >stdout 2>stderr
expect "a mistake in a kit: exit code" 2 $?
expect "a mistake in a kit is reported with its place" \
    "elsewhere/set.toml:$(grep -n my-jar elsewhere/set.toml | cut -d: -f1):1: glass 1: height_mm (kit \"my-jar\", elsewhere/kit/mine.toml:5:1): is -5; must be above 0, up to 20000" \
    "$(cat stderr)"

# ---- The page of keys -----------------------------------------------------------------------------

expect "keys of one table" "[[meter]]" "$("$dapple" keys meter | sed -n 1p)"
expect "a key with its unit, default and limits" \
    "  receptor_mm, mm; default: 25; allowed: 0 to 500" "$("$dapple" keys '[[meter]]' | grep receptor_mm)"
"$dapple" keys lamp >stdout 2>stderr
expect "a table that does not exist: exit code" 2 $?
expect "a table that does not exist: in one line" 1 "$(grep -c 'there is no table "lamp"; there are top, room' stderr)"

# ---- What the kit lacks ---------------------------------------------------------------------------

write_set elsewhere/carry.toml
cat >elsewhere/kit/mine.toml <<'END'
[[stand]]
kit = "my stands"
about = "tall stands from the cupboard"
count = 0
reach_m = 3.0
END
expect "missing stands are told" "1 stand up to 2.6 m 0 1" \
    "$("$dapple" plan elsewhere/carry.toml | grep 'stand up to' | xargs)"
write_set elsewhere/own.toml '/beam_angle_deg\|field_angle_deg\|output_lm\|source_mm/d; s/^name = "key"/name = "key"\nkit = "led-spot-15"/'
printf '[[fixture]]\nkit = "led-spot-15"\ncount = 0\n' >>elsewhere/kit/mine.toml
expect "a count of an entry that comes with the program" "1 LED spot 15 W (led-spot-15) 0 1" \
    "$("$dapple" plan elsewhere/own.toml | grep '^1 .*led-spot-15' | xargs)"
expect "the kit lists that entry once" 1 "$("$dapple" kit elsewhere/own.toml | grep -c led-spot-15)"
sed -i 's/reach_m = 3.0/reach_m = -3/' elsewhere/kit/mine.toml
"$dapple" plan elsewhere/carry.toml >stdout 2>stderr
expect "a mistake in a stand: exit code" 2 $?
expect "a mistake in a stand" \
    'elsewhere/kit/mine.toml:5:1: stand "my stands": reach_m: is -3; must be above 0, up to 50' \
    "$(cat stderr)"

exit $((failures > 0))
