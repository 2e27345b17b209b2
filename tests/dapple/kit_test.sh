#!/bin/sh
# dapple kit lists the kit, and a set in any folder can use it.
set -u
. "$(dirname "$0")/program.sh"

expect "the list names a fixture" 1 "$("$dapple" kit | grep -c '^  led-spot-40  ')"
expect "as JSON: kind, name, about, file, line" 1 \
    "$("$dapple" kit --json | grep -c '"name": "demijohn-water"')"

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
    "elsewhere/kit/mine.toml:5:1: glass 1: height_mm: is -5; must be above 0, up to 20000" \
    "$(cat stderr)"

exit $((failures > 0))
