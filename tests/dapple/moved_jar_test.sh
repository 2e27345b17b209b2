#!/bin/sh
# Moving the jar of jar-and-wall moves its pattern on the wall. The change is far larger than the
# noise between two renders of one set.
set -u
. "$(dirname "$0")/program.sh"

cp "$scenes/jar-and-wall/jar-and-wall.toml" here.toml
sed '/^form = "jar"/,/^position/s/^position.*/position = [0.40, 0.001, -0.80]/' here.toml >there.toml
expect "one line of the set has changed" 1 "$(diff here.toml there.toml | grep -c '^>')"

# light_on_wall SET SEED: the luminance around the broken beam, in 5 x 4 blocks of 8 x 7 px.
light_on_wall() {
    "$dapple" render "$1.toml" -o "$1-$2" --width 120 --passes 4 --seed "$2" >stdout 2>stderr || {
        echo "exit code $? of: dapple render $1.toml"
        cat stderr
        exit 1
    }
    oiiotool "$1-$2/$1.exr" --ch luminance.Y --cut 40x28+33+23 --resize:filter=box 5x4 -o "$1-$2.exr"
}
# difference A B: root mean square of the difference, cd/m².
difference() {
    oiiotool "$1" "$2" --diff | sed -n 's/ *RMS error = //p'
}

light_on_wall here 1
light_on_wall here 2
light_on_wall there 1
grain=$(difference here-1.exr here-2.exr)
moved=$(difference here-1.exr there-1.exr)
# Measured: moved 18, grain 2.9. Both are sums over 20 blocks. If the jar had no effect, a ratio of
# three would occur once in 100 000 renders (the square of the ratio is F-distributed).
awk "BEGIN { exit !($grain > 0 && $moved > 3 * $grain) }"
expect "the pattern has moved (difference $moved, grain $grain cd/m²)" 0 $?

exit $((failures > 0))
