#!/bin/sh
# The files that dapple render writes, and the effect of its options.
set -u
. "$(dirname "$0")/program.sh"

# render ARGUMENTS...: runs dapple render; ends the script if that fails.
render() {
    "$dapple" render "$@" 2>"$work/stderr" || {
        echo "exit code $? of: dapple render $*"
        cat "$work/stderr"
        exit 1
    }
}
# pixels FILE: a hash of all channels of all pixels. It does not depend on the file's date and
# compression.
pixels() {
    iinfo --hash "$1" | grep SHA-1
}
# frame_of FILE: "48 x 32".
frame_of() {
    iinfo "$1" | sed 's/.* : *\([0-9]*\) x *\([0-9]*\),.*/\1 x \2/'
}

write_set set.toml

# ---- Four files ----------------------------------------------------------------------------------

render set.toml -o out --passes 2 >stdout
expect "standard output names the four results" "out/set.png
out/set.exr
out/set.stats.json
out/set.mask.png" "$(head -n 4 stdout)"
expect "there are no other files" "out/set.exr
out/set.mask.png
out/set.png
out/set.stats.json" "$(find out -type f | sort)"
expect "the picture has the frame's size" "48 x 32" "$(frame_of out/set.png)"
expect "the EXR too" "48 x 32" "$(frame_of out/set.exr)"
iinfo -v out/set.exr >exr
expect "channels of the EXR" "R, G, B, albedo.R, albedo.G, albedo.B, clean.R, clean.G, \
clean.B, clean.stderr, clean.key.cool.R, clean.key.cool.G, clean.key.cool.B, clean.key.warm.R, \
clean.key.warm.G, clean.key.warm.B, depth.Z, \
key.cool.R, key.cool.G, key.cool.B, key.warm.R, key.warm.G, key.warm.B, luminance.Y, \
luminance.stderr, mask.in_frame, noise.Y, normal.X, normal.Y, normal.Z, surface.id, \
surface.lamp, surface.pixel_m" "$(sed -n 's/ *channel list: //p' exr | sed 's/ ([a-z]*)//g')"
expect "layers are halves, all others floats" "12 21" \
    "$(sed -n 's/ *channel list: //p' exr | tr ',' '\n' | grep -c half) \
$(sed -n 's/ *channel list: //p' exr | tr ',' '\n' | grep -c float)"
expect "the EXR is packed without loss" '"zip"' "$(sed -n 's/ *compression: //p' exr)"
"$dapple" render set.toml -o floats --passes 2 --float >stdout 2>stderr
expect "--float: all channels are floats" 0 "$(iinfo -v floats/set.exr | grep -c half)"
expect "the statistics have the passes" '  "passes": 2,' "$(grep '"passes"' out/set.stats.json)"
expect "the statistics say what they are of" '  "statistics_of": "measured film",' \
    "$(grep statistics_of out/set.stats.json)"
expect "no sample was lost" '  "nonfinite_samples": 0,' "$(grep nonfinite out/set.stats.json)"
first=$(pixels out/set.exr)
expect "nothing is in the frame" '  "in_frame": []' "$(grep in_frame out/set.stats.json)"

write_set seen.toml 's/^position = \[1.0, 2.0, 1.0\]/position = [0.2, 1.0, -1.0]\nhousing_mm = [100, 200]/'
"$dapple" check seen.toml >checked
expect "check names the housing in the frame" 1 "$(grep -c '^in the frame: housing "key": ' checked)"
render seen.toml -o out --passes 1 >stdout
expect "render prints the same lines" "$(sed -n 's/^in the frame: //p' checked)" \
    "$(tr '\n' ' ' <stdout | sed 's/       */; /g; s/.* \(housing "key"\)/\1/; s/ *$//')"
expect "the mask has the frame's size" "48 x 32" "$(frame_of out/seen.mask.png)"
expect "the statistics list it" '      "kind": "housing",' "$(grep housing out/seen.stats.json)"
rm out/seen.*

# ---- Options -------------------------------------------------------------------------------------

render set.toml -o json --passes 2 --json >stdout.json
expect "--json prints the statistics file" "$(cat json/set.stats.json)" \
    "$(cat stdout.json)"
if command -v python3 >/dev/null; then
    expect "the output of --json is JSON" "" "$(python3 -m json.tool stdout.json 2>&1 >/dev/null)"
fi
expect "the same set, seed and passes: the same pixels" "$first" "$(pixels json/set.exr)"

render set.toml -o raw --passes 2 --raw >/dev/null
expect "--raw keeps the EXR" "$first" "$(pixels raw/set.exr)"
[ "$(pixels raw/set.png)" != "$(pixels out/set.png)" ]
expect "--raw writes another picture" 0 $?
render set.toml -o clean --clean-noise 50 --passes 40 >/dev/null
noise=$(sed -n 's/ *"clean": \([0-9]*\).*/\1/p' clean/set.stats.json)
[ "${noise:-100}" -lt 50 ] && [ "$(sed -n 's/ *"passes": \([0-9]*\),/\1/p' clean/set.stats.json)" -lt 40 ]
expect "--clean-noise stops at the estimated error" 0 $?

render set.toml -o csv --passes 1 --csv >/dev/null
expect "--csv: a line for each row of pixels" 32 "$(wc -l <csv/set.luminance.csv)"
expect "--csv: a number for each pixel of a row" 48 \
    "$(head -n 1 csv/set.luminance.csv | tr ',' '\n' | grep -c '^[0-9][0-9.e+-]*$')"

render set.toml -o width --passes 1 --width 24 >/dev/null
expect "--width keeps the frame's shape" "24 x 16" "$(frame_of width/set.exr)"

render set.toml -o seed --passes 2 --seed 2 >/dev/null
expect "the statistics have the seed" '  "seed": 2,' "$(grep '"seed"' seed/set.stats.json)"
[ "$(pixels seed/set.exr)" != "$first" ]
expect "another seed gives other noise" 0 $?

render set.toml -o camera --passes 2 --transport camera >/dev/null
expect "the statistics have the transport" '  "transport": "camera",' \
    "$(grep '"transport"' camera/set.stats.json)"
[ "$(pixels camera/set.exr)" != "$first" ]
expect "camera walks alone give other pixels" 0 $?

render set.toml -o timed --seconds 0.2 >/dev/null
[ "$(sed -n 's/ *"passes": \([0-9]*\),/\1/p' timed/set.stats.json)" -ge 1 ]
expect "--seconds makes one pass at least" 0 $?

# ---- A lens of glass -------------------------------------------------------------------------------

# The lamp shines into the lens, from beside the picture.
write_set lens.toml 's/^frame_px.*/&\nlens = "normal"\ncoating = "none"/
    s/^position = \[1.0, 2.0, 1.0\]/position = [1.0, 1.2, 0.2]/
    s/^aim = \[0.0, 0.5.*/aim = [0.0, 1.2, 1.5]/'
sed '/^lens\|^coating/d' lens.toml >bare.toml
render lens.toml -o lens --passes 2 >stdout
render bare.toml -o lens --passes 2 >/dev/null
expect "a lens adds glare to the EXR: all of it, and that of each group" 9 \
    "$(iinfo -v lens/lens.exr | sed -n 's/ *channel list: //p' | tr ',' '\n' | grep -c ' glare\.')"
expect "the screen says what it costs" 1 "$(grep -c '^GLARE' stdout)"
expect "and which lamp makes it" 1 "$(grep -c '^  key: .* off the axis' stdout)"
light_of() { # the mean luminance and the shares, which glare must not change
    sed '/"in_frame"/,$d' "$1" | grep -v '"seconds"\|"title"\|"set"'
}
expect "the light is measured without it" "$(light_of lens/bare.stats.json)" \
    "$(light_of lens/lens.stats.json)"
[ "$(pixels lens/lens.png)" != "$(pixels lens/bare.png)" ]
expect "the picture has it" 0 $?
"$dapple" judge lens/lens.exr >judged 2>stderr
expect "judge reads it back from the film" "$(sed -n '/^GLARE/,/^$/p' stdout)" \
    "$(sed -n '/^GLARE/,/^$/p' judged)"
"$dapple" rebalance lens/lens.exr --off key -o dark >/dev/null 2>stderr
expect "without the lamp there is no glare" 0 \
    "$("$dapple" judge dark/lens.exr 2>/dev/null | grep -c '^  key: .* off the axis')"

# ---- Threads -------------------------------------------------------------------------------------

for threads in 1 2; do
    render "$scenes/jar-and-wall/jar-and-wall.toml" -o "threads$threads" --width 96 --passes 2 \
        --threads $threads >/dev/null
done
expect "one thread and two make the same pixels" "$(pixels threads1/jar-and-wall.exr)" \
    "$(pixels threads2/jar-and-wall.exr)"
[ -n "$(pixels threads1/jar-and-wall.exr)" ]
expect "those pixels are not empty" 0 $?

exit $((failures > 0))
