#!/bin/sh
# The files of dapple sheet, their names, and its refusals.
set -u
. "$(dirname "$0")/program.sh"

write_set first.toml '1i title = "A room"'
write_set second.toml '1i title = "Another room"'
"$dapple" render first.toml -o a/jar --passes 2 >rendered 2>stderr
"$dapple" render second.toml -o b --passes 1 >>rendered 2>>stderr
mkdir a/bottle
cp a/jar/first.exr a/bottle/first.exr

# ---- Files and names -----------------------------------------------------------------------------

"$dapple" sheet a b/second.exr -o out >listed 2>stderr
expect "sheet: exit code" 0 $?
expect "films of one name take the names of their folders" "out/bottle.html
out/bottle.mood.jpg
out/bottle.mood.png
out/bottle.mood.tif
out/jar.html
out/jar.mood.jpg
out/jar.mood.png
out/jar.mood.tif
out/second.html
out/second.mood.jpg
out/second.mood.png
out/second.mood.tif
out/sheet.json
out/sheet.pdf
out/sheet.png" "$(find out -type f | sort)"
expect "the files are listed" "$(find out -type f | sort)" "$(sort listed)"
if command -v pdftotext >/dev/null; then
    pdftotext -layout out/sheet.pdf text
    for words in "Contact sheet" "3 frames" "A room: bottle" "A room: jar" "Another room" "1/1"; do
        expect "the PDF says $words" 1 "$(grep -c "$words" text)"
    done
    "$dapple" sheet a -o shared >listed 2>stderr
    pdftotext -layout shared/sheet.pdf text
    expect "a title that all share is the heading, and said once" 1 "$(grep -c 'A room' text)"
fi

mkdir many
for i in $(seq 1 70); do ln -s ../b/second.exr "many/film-$i.exr"; done
"$dapple" sheet many -o many_out >listed 2>stderr
expect "70 films: exit code" 0 $?
expect "films come in the order of their numbers" \
    "many_out/film-1.mood.png many_out/film-2.mood.png many_out/film-3.mood.png" \
    "$(grep 'png$' listed | head -n 3 | xargs)"
expect "further pages of the sheet are numbered" "many_out/sheet-2.png
many_out/sheet.png" "$(ls many_out/sheet*.png)"

# ---- Refusals ------------------------------------------------------------------------------------

results() {
    find out | sort
    find out -type f -exec cksum {} + | sort
}
# refused CLAIM START FILM...: one line that starts so, exit code 2, earlier results as they were.
refused() {
    claim=$1
    start=$2
    shift 2
    before=$(results)
    stdout=$("$dapple" sheet "$@" -o out 2>"$work/all")
    expect "$claim: exit code" 2 $?
    grep -v '^film ' "$work/all" >"$work/stderr" # progress, on a slow machine
    expect "$claim: nothing on standard output" "" "$stdout"
    expect "$claim: one line" 1 "$(wc -l <"$work/stderr")"
    case $(cat "$work/stderr") in
        "$start"*) ;;
        *) expect "$claim" "$start" "$(cat "$work/stderr")" ;;
    esac
    expect "$claim: earlier results are as they were" "$before" "$(results)"
}

mkdir empty
echo "not a film" >text.exr
size=$(wc -c <b/second.exr)
head -c 3000 b/second.exr >short.exr
head -c $((size * 9 / 10)) b/second.exr >cut.exr
sed 's/"version":1,/"version":7,/' b/second.exr >other.exr
refused "an empty folder" "empty: holds no .exr; give the folder of a render" a empty
refused "a missing film" "none.exr: cannot be read: No such file or directory" a none.exr
refused "a text" "text.exr: is not an EXR, or is damaged" a text.exr
refused "the head of a film" "short.exr: is " a short.exr
refused "a film without its end" "cut.exr: is truncated or damaged" a cut.exr
refused "a film of another version" "other.exr: is a film of version 7" a other.exr
refused "a picture" "a/jar/first.png: is not an EXR, or is damaged" a a/jar/first.png
if command -v oiiotool >/dev/null; then
    oiiotool --create 8x8 3 -o foreign.exr
    refused "an EXR that is not ours" "foreign.exr: is not a film of dapple" a foreign.exr
fi
refused "no film" "dapple: FILM is required"
mkdir -p blocked/sheet.pdf
"$dapple" sheet b -o blocked >stdout 2>stderr
expect "a folder where the PDF goes: exit code" 2 $?
expect "a folder where the PDF goes" "blocked/sheet.pdf: cannot be written: Is a directory" \
    "$(cat stderr)"
expect "a folder where the PDF goes: nothing is written" "blocked/sheet.pdf" \
    "$(find blocked -mindepth 1)"

exit $((failures > 0))
