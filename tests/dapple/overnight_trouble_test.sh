#!/bin/sh
# dapple overnight in trouble: a full or read-only disk, damaged and edited files, a variant that
# fails, two runs at once. Nothing is lost, and the same command goes on to the same bits.
set -u
. "$(dirname "$0")/program.sh"

# A set with a model.
mkdir set
{ echo "mtllib room.mtl" && echo "usemtl paint" && box room -2 0 -2 2 2.6 2; } >set/room.obj
printf 'newmtl paint\nKd 0.5 0.5 0.5\n' >set/room.mtl
write_set set/set.toml 's/size_m.*/model = "room.obj"/; s/frame_px.*/frame_px = [40, 27]/'
cat >night.toml <<'END_NIGHT'
set = "set/set.toml"
name = "{fixture.key.beam_angle_deg}"
[vary]
"fixture.key.beam_angle_deg" = [15, 25, 35]
END_NIGHT
night() {
    "$dapple" overnight night.toml "$@" --threads 1 >printed 2>stderr
}
same_films() {
    for file in whole/*/set.passes whole/*/set.png; do
        expect "$1: $file has the same bits" "" "$(cmp "$file" "$2/${file#whole/}" 2>&1)"
    done
}

night -o whole --passes 5
expect "undisturbed" 0 $?

# ---- The disk -------------------------------------------------------------------------------------

mkdir disk
if mount -t tmpfs -o size=3m none disk 2>/dev/null; then
    trap 'umount "$work/disk"; rm -rf "$work"' EXIT
    night -o disk/night --passes 2
    expect "before the disk is full" 0 $?
    cksum disk/night/*/set.png >before
    free=$(df -k --output=avail disk | tail -1)
    head -c $(((free - 60) * 1024)) /dev/zero >disk/others
    night -o disk/night --passes 5
    expect "a full disk: exit code" 2 $?
    expect "a full disk: it is told what to do" 1 "$(grep -c \
        'No space left on device: all that was made so far is kept; make room' stderr)"
    expect "a full disk: what was there is as it was" "" "$(cksum disk/night/*/set.png | diff - before)"
    expect "a full disk: nothing is half written" "" "$(find disk -name '*.partial')"
    rm disk/others
    night -o disk/night --passes 5
    expect "room was made: the same command goes on" 0 $?
    same_films "room was made" disk/night
    head -c $((2800 * 1024)) /dev/zero >disk/others 2>/dev/null
    night -o disk/other --passes 2
    expect "no room from the start: refused" 2 $?
    expect "no room from the start: what is needed" 1 "$(grep -c 'MB free, and this night needs' stderr)"
    rm disk/others
    "$dapple" render set/set.toml -o disk/one --passes 2 --resume >printed 2>stderr
    free=$(df -k --output=avail disk | tail -1)
    head -c $(((free - 60) * 1024)) /dev/zero >disk/others
    cksum disk/one/* >before
    "$dapple" render set/set.toml -o disk/one --passes 4 --resume >printed 2>stderr
    expect "render on a full disk: exit code" 2 $?
    expect "render on a full disk: what was there is as it was, but for the picture" "" \
        "$(cksum disk/one/* | diff - before | grep -v png | grep set)"
    rm disk/others
    "$dapple" render set/set.toml -o disk/one --passes 4 --resume >printed 2>stderr
    expect "render, room was made: goes on" 0 $?
    mount -o remount,ro disk
    night -o disk/night --passes 6
    expect "a folder that cannot be written: exit code" 2 $?
    expect "a folder that cannot be written: the line" \
        "disk/night: cannot be written to: Read-only file system" "$(tail -1 stderr)"
    umount disk
    trap 'rm -rf "$work"' EXIT
else
    echo "the disk's cases are left out: no file system may be mounted here"
fi

# ---- Damaged and missing files --------------------------------------------------------------------

for damage in empty short changed; do
    rm -rf hurt && cp -r whole hurt
    case $damage in
        empty) : >hurt/25/set.passes ;;
        short) head -c 20000 whole/25/set.passes >hurt/25/set.passes ;;
        changed) printf 'x' | dd of=hurt/25/set.passes bs=1 seek=9000 conv=notrunc 2>/dev/null ;;
    esac
    night -o hurt --passes 5
    expect "a $damage checkpoint: done" 0 $?
    expect "a $damage checkpoint: told and set aside" "1 hurt/25/set.passes.damaged" \
        "$(grep -c 'is damaged; it is now' stderr) $(find hurt -name '*.damaged')"
    same_films "a $damage checkpoint" hurt
done
rm -rf hurt && cp -r whole hurt
rm hurt/15/set.exr hurt/25/set.stats.json hurt/35/set.png
night -o hurt --passes 5
expect "results that are missing: made again" 0 $?
same_films "results that are missing" hurt
expect "results that are missing: all are there" 3 "$(ls hurt/*/set.exr hurt/*/set.stats.json | grep -c exr)"
echo '{"variants": [' >hurt/overnight.json
night -o hurt --passes 5
expect "a damaged overnight.json: refused" 2 $?
expect "a damaged overnight.json: the line" \
    "hurt/overnight.json: is not what dapple overnight has written" "$(tail -1 stderr)"

# ---- Edited files ---------------------------------------------------------------------------------

for edit in 's/^v -2 0 -2/v -2.1 0 -2/ set/room.obj' 's/0.5 0.5/0.5 0.4/ set/room.mtl' \
    's/800/900/ set/set.toml'; do
    file=${edit##* }
    cp "$file" kept
    sed -i "${edit% *}" "$file"
    rm -rf hurt && cp -r whole hurt
    night -o hurt --passes 6
    expect "$file was edited: refused" 2 $?
    expect "$file was edited: told" 1 "$(grep -c 'made from another set.*--restart makes all' stderr)"
    expect "$file was edited: nothing is touched" "" "$(diff -r whole hurt)"
    cp kept "$file"
done
rm hurt/overnight.json hurt/15/set.stats.json
"$dapple" overnight night.toml -o hurt --passes 5 --seed 3 >printed 2>stderr
expect "passes of another seed, without overnight.json: refused" 2 $?
expect "passes of another seed: told" 1 "$(grep -c '15/set.passes: holds passes of another' stderr)"

night -o edited --passes 4000 &
program=$!
wait_for edited/35/set.stats.json
sed -i 's/0.5 0.5/0.5 0.4/' set/room.mtl
wait $program
expect "edited in the night: exit code" 3 $?
expect "edited in the night: told for each variant" 3 "$(grep -c 'was edited in the night' stderr)"
expect "edited in the night: what was made before is on the sheet" edited/sheet.pdf \
    "$(ls edited/sheet.pdf)"
night -o edited --passes 2 --restart
expect "--restart makes all anew" 0 $?
sed -i 's/0.5 0.4/0.5 0.5/' set/room.mtl

# ---- A variant that fails, and two runs -----------------------------------------------------------

mkdir fails && : >fails/25
night -o fails --passes 5
expect "a variant that fails: exit code" 3 $?
expect "a variant that fails: told" 1 "$(grep -c '^25: failed: fails/25' stderr)"
expect "a variant that fails: the others are there" "fails/15/set.png fails/35/set.png" \
    "$(echo fails/*/set.png)"
expect "a variant that fails: --status" 1 \
    "$("$dapple" overnight -o fails --status | grep -c '2 done, 0 begun, 0 not begun, 1 failed')"
rm fails/25
night -o fails --passes 5
expect "afterwards it is made" 0 $?
same_films "afterwards" fails

"$dapple" overnight night.toml -o two --passes 100000 --threads 1 >printed2 2>stderr2 &
program=$!
wait_for two/progress.json
night -o two --passes 5
expect "a second run: refused" 2 $?
expect "a second run: says who holds the folder" 1 \
    "$(grep -c "^two: is being written by process $program on " stderr)"
expect "--status says who runs" 1 "$("$dapple" overnight -o two --status | grep -c "^process $program on ")"
kill -INT $program
wait $program
expect "Ctrl-C: stopped early" 3 $?
expect "--status says that nobody runs" 1 \
    "$("$dapple" overnight -o two --status | grep -c '^not running now')"

# ---- Limits ---------------------------------------------------------------------------------------

night -o none --passes 2 --memory-gb 0.01
expect "too little memory: refused" 2 $?
expect "too little memory: the line" 1 "$(grep -c \
    '^set/set.toml: needs about 0.*GB of memory for 40 x 27 pixels, and --memory-gb allows 0.01; no smaller frame would fit$' \
    stderr)"
night -o none --passes 2 --width 4000 --memory-gb 1
expect "too little memory: what would fit" 1 "$(grep -c 'allows 1; --width [0-9]* would fit$' stderr)"
night -o none
expect "a night without an end: refused" 2 $?
expect "nothing was made" "" "$(ls none 2>/dev/null)"
printf '[limits]\npasses = 1\nuntil = "06:30"\n' >>night.toml
night -o limited
expect "[limits] end a night" "0 3" "$? $(grep -c '"passes": 1' limited/overnight.json)"
night -o limited --passes 2
expect "the command line comes before [limits]" 3 "$(grep -c '"passes": 2' limited/overnight.json)"

exit $((failures > 0))
