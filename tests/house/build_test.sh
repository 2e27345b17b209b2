#!/bin/sh
# tools/build shows how much is built and for how long, and keeps errors and the exit code. The
# build itself is a stand-in.
set -u
cd "$(dirname "$0")/../.."
. tests/house/expect.sh
mkdir -p "$work/tools/presets" "$work/build/release" "$work/bin"
cp tools/build "$work/tools/"
cd "$work" || exit 1
echo preset >tools/presets/release.cmake
cp tools/presets/release.cmake build/release/preset.cmake
cat >bin/cmake <<'END'
#!/bin/sh
for status in "  1% 0.5" "  9% 12.4" " 12% 61.9" " 13% 70.0" " 99% 700.2"; do
    echo "[$status] Building CXX object a.cpp.o"
done
[ "$CODE" = 0 ] || echo "a.cpp:1: error: bad"
exit "$CODE"
END
chmod +x bin/cmake

CODE=0 PATH=$work/bin:$PATH tools/build >printed 2>stderr
expect "exit code" 0 $?
expect "a line for each tenth" "Building build/release.|  12 % built, 1 min 01 s|  99 % built, 11 min 40 s|" \
    "$(tr '\n' '|' <printed)"
expect "no error" "" "$(cat stderr)"
CODE=3 PATH=$work/bin:$PATH tools/build >printed 2>stderr
expect "the build's exit code" 3 $?
expect "what went wrong" "a.cpp:1: error: bad" "$(cat stderr)"

exit $((failures > 0))
