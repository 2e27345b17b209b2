#!/bin/sh
# Values with units, shares in per cent and things by name, in every command that takes values.
set -u
. "$(dirname "$0")/program.sh"

# The same set, as numbers and as people write it.
things='$a [[stand_in]]\nname = "lay"\nposition = [0.0, 0.0, -1.0]\nheight_m = 1.8034\n[[meter]]\nname = "hand"\nposition = [0.0, 1.5, -0.7]\nfacing = [1.0, 2.0, 1.0]'
write_set numbers.toml "s/^iso.*//; s/^frame_px/f_number = 4.0\\nshutter_s = 0.02\\n&/; s/^output_lm/dimmer = 0.5\\n&/; $things"
sed 's/f_number = 4.0/f_number = "f\/4"/
     s/shutter_s = .*/shutter_s = "1\/50"/
     s/dimmer = 0.5/dimmer = "50%"/
     s/^position = \[1.0, 2.0, 1.0\]/position = ["1 m", "200 cm", 1]/
     s/beam_angle_deg = 20.0/beam_angle_deg = "20°"/
     s/height_m = .*/height_m = "5'"'"'11\\""/
     s/facing = .*/facing = "key"/' numbers.toml >words.toml
expect "the two files differ" 1 $(($(diff numbers.toml words.toml | grep -c '^>') > 6))
for set in numbers words; do
    "$dapple" render $set.toml -o $set --passes 2 --json >/dev/null 2>stderr
    expect "$set: exit code" 0 $?
done
expect "they are the same picture" "$(cksum <numbers/numbers.png)" "$(cksum <words/words.png)"
"$dapple" meter words.toml --passes 4 >printed 2>stderr
expect "a meter may face a fixture" 0 $?

"$dapple" rebalance words/words.exr --set "key.dimmer=25 %" -o a >/dev/null 2>stderr
"$dapple" rebalance words/words.exr --set "key.dimmer=-2 stops" -o b >/dev/null 2>>stderr
"$dapple" rebalance words/words.exr --set "key.dimmer=0.25" -o c >/dev/null 2>>stderr
expect "rebalance takes shares as people write them" "" "$(grep -v '^results' stderr)"
expect "25 % is 0.25" "$(cksum <c/words.png)" "$(cksum <a/words.png)"
expect "two stops down is 0.25" "$(cksum <c/words.png)" "$(cksum <b/words.png)"

cat >night.toml <<'END_NIGHT'
set = "words.toml"
[vary]
"fixture.key.dimmer" = ["50%", "-2 stops"]
"camera.shutter_s" = { from = "1/100", to = "1/50", steps = 2 }
"camera.aim" = ["lay", "lay face", "back wall"]
END_NIGHT
"$dapple" overnight night.toml -o night --passes 1 --width 24 >printed 2>stderr
expect "a night: exit code" 0 $?
expect "a night varies values as people write them" 12 "$(ls night/*/words.png | wc -l)"
expect "dimmers alone are rebalanced" 1 "$(grep -c '^12 variants from 6 films' stderr)"
expect "a range of shutter times" 6 "$(grep -l '^shutter_s = 0.01$' night/*/words.toml | wc -l)"

lux=$(sed -n 's/.*"lux": \([0-9.]*\),.*/\1/p' words/words.stats.json | head -n 1)
half=$(awk "BEGIN { print $lux / 2 }")
"$dapple" balance words/words.exr "hand = $half lx" --write words.toml >printed 2>stderr
expect "balance writes a number in place of a share as people write it" "dimmer = 0.25" \
    "$(sed -n 's/^dimmer = //p' words.toml | awk '{ printf "dimmer = %.2f", $1 }')"

exit $((failures > 0))
