#!/bin/sh
# What `dapple check` says beside mistakes and warnings: where a model goes, and what is in a frame
# that is too large to look at pixel by pixel.
set -u
. "$(dirname "$0")/program.sh"

# ---- Models --------------------------------------------------------------------------------------

# 240 x 220 inches and 102 high, its z up.
cat >room.obj <<'END'
v 0 0 0
v 240 0 0
v 240 220 0
v 0 220 0
v 0 0 102
v 240 0 102
v 240 220 102
v 0 220 102
f 1 2 3 4
f 5 6 7 8
f 1 2 6 5
f 1 4 8 5
f 2 3 7 6
f 3 4 8 7
END
inches='s/^size_m.*/model = "room.obj"\nunit = "in"\nup = "z"/
    s/\[0\.0, 1\.2, 1\.5\]/[3.0, 1.2, -1.0]/; s/\[0\.0, 1\.0, -2\.0\]/[3.0, 1.0, -4.0]/
    s/\[1\.0, 2\.0, 1\.0\]/[4.0, 2.0, -1.5]/; s/\[0\.0, 0\.5, -1\.0\]/[3.0, 0.5, -3.0]/'
write_set inches.toml "$inches"
"$dapple" check inches.toml >checked 2>stderr
expect "where a model goes, in metres with y up" \
    'model "room.obj": x from 0 to 6.1, y (up) from 0 to 2.59, z from -5.59 to 0: 6.1 x 5.59 m and 2.59 m high' \
    "$(grep '^model' checked)"
write_set box.toml
expect "a room of size_m has no such line" "" "$("$dapple" check box.toml | grep '^model')"

# ---- Large frames --------------------------------------------------------------------------------

seen='$a [[glass]]\nname = "jar"\nform = "jar"\nposition = [0.2, 1.0, -0.5]'
write_set small.toml "s/48, 32/1200, 800/; $seen"
write_set large.toml "s/48, 32/15000, 10000/; $seen"
"$dapple" check small.toml >small 2>stderr
"$dapple" check large.toml >large 2>stderr
pixels() {
    sed -n 's/^in the frame: glass "jar": \([0-9]*\) px.*/\1/p' "$1"
}
expect "a large frame has the same things in it" \
    "$(sed 's/[0-9][0-9.]*/N/g' small | grep -v '^small')" \
    "$(sed 's/[0-9][0-9.]*/N/g' large | grep -v '^large')"
# Each edge of the jar is found to a pixel of the coarse frame.
awk -v small="$(pixels small)" -v large="$(pixels large)" \
    'BEGIN { ratio = large / (156.25 * small); exit !(ratio > 0.98 && ratio < 1.02) }'
expect "and their pixels are those of the large frame, to 2 %" 0 $?
expect "the largest of its boxes reaches beyond the coarse frame" 1 \
    "$(sed -n 's/^in the frame: glass "jar": .* x \([0-9]*\) to.*/\1/p' large | awk '{ print ($1 > 3000) }')"

exit $((failures > 0))
