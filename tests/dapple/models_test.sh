#!/bin/sh
# Rooms made by others: the OBJ models of Debian's embree-tools load and can be seen.
set -u
. "$(dirname "$0")/program.sh"

models=$(dpkg -L embree-tools 2>/dev/null | grep '\.obj$')
if [ -z "$models" ]; then
    echo "Skipped: the package embree-tools is not installed."
    exit 77
fi

# set_for MODEL: seen whole from the side of -z, by the light of a bare lamp over the camera. Its
# numbers are taken as centimetres. The surface is one that the model uses, and must be in view.
set_for() {
    awk -v model="$1" '
        $1 == "v" {
            for (a = 1; a <= 3; ++a) {
                x = $(a + 1) / 100
                if (!seen || x < low[a]) low[a] = x
                if (!seen || x > high[a]) high[a] = x
            }
            seen = 1
        }
        $1 == "usemtl" && surface == "" { surface = $2 }
        END {
            for (a = 1; a <= 3; ++a) {
                middle[a] = (low[a] + high[a]) / 2
                if (high[a] - low[a] > size) size = high[a] - low[a]
            }
            away = low[3] - 1.5 * size
            printf "[room]\nmodel = \"%s\"\nunit = \"cm\"\n\n", model
            printf "[camera]\nposition = [%g, %g, %g]\n", middle[1], middle[2], away
            printf "aim = [%g, %g, %g]\n", middle[1], middle[2], middle[3]
            print "focal_length_mm = 35\nsensor_mm = [24, 24]\nframe_px = [96, 96]\niso = 3200\n"
            print "[[fixture]]\nname = \"lamp\"\nform = \"bare\"\nsource_mm = 100"
            printf "position = [%g, %g, %g]\n", middle[1], high[2], low[3] - 0.5 * size
            print "output_lm = 20000\n\n[[region]]\nname = \"surface\""
            printf "surface = \"%s\"\n", surface
        }' "$1"
}

for model in $models; do
    name=$(basename "$model" .obj)
    set_for "$model" >"$name.toml"
    "$dapple" render "$name.toml" -o out --passes 4 >stdout 2>stderr
    expect "$name: renders" 0 $?
    expect "$name: without a problem" "" "$(grep -v '^note: \|^results: \|rays/s' stderr)"
    # The region comes last in the statistics.
    pixels=$(sed -n 's/ *"pixels": \([0-9]*\),/\1/p' "out/$name.stats.json")
    [ "${pixels:-0}" -gt 500 ]
    expect "$name: is in view, a twentieth of the frame at least (was ${pixels:-0} of 9216 px)" 0 $?
    mean=$(sed -n 's/ *"mean_luminance": \([0-9.e+-]*\),*/\1/p' "out/$name.stats.json" | tail -n 1)
    awk "BEGIN { exit !(${mean:-0} > 0) }"
    expect "$name: and lit" 0 $?
done

exit $((failures > 0))
