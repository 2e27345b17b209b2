#!/bin/sh
# tools/check_includes accepts a small correct project and reports every planted error in it.
set -u
cd "$(dirname "$0")/../.."
. tests/house/expect.sh

house=$work/house
mkdir -p "$house/tools/dapple"
cat >"$house/CMakeLists.txt" <<'END'
add_subdirectory(renderer/base)
add_subdirectory(renderer/math)
add_subdirectory(renderer/fixtures)
add_subdirectory(renderer/transport)
add_subdirectory(renderer/output)
END
folder() { # folder NAME LINKS...
    name=$1
    shift
    mkdir -p "$house/renderer/$name"
    printf 'dapple_folder(%s\n    SOURCES\n        a.cpp  # LINKS nothing\n    LINKS %s\n)\n' \
        "$name" "$*" >"$house/renderer/$name/CMakeLists.txt"
}
folder base
folder math base
folder fixtures base math
folder transport base math fixtures
folder output base math
printf '#include "fixtures/emitter.h"\n\n#include "base/units.h"\n#include <set>\n' \
    >"$house/renderer/fixtures/emitter.cpp"
printf '#include <OpenImageIO/imageio.h>\n' >"$house/renderer/output/write_exr.cpp"
mkdir "$house/renderer/fixtures/lenses"
printf '#include "fixtures/lenses/lens.h"\n#include "math/vec.h"\n#include "fixtures/emitter.h"\n' \
    >"$house/renderer/fixtures/lenses/lens.cpp"
printf '#include "transport/walk.h"\n' >"$house/tools/dapple/main.cpp"
git -C "$house" init -q
git -C "$house" add .

expect "a correct project gives no output" "" "$(tools/check_includes "$house" 2>&1)"
tools/check_includes "$house" >/dev/null
expect "a correct project gives exit code 0" 0 $?

breach() { # breach CLAIM FILE CONTENT EXPECTED: plants one error, checks, and removes it
    mkdir -p "$(dirname "$house/$2")"
    [ ! -f "$house/$2" ] || cp "$house/$2" "$work/before"
    printf "$3" >"$house/$2"
    git -C "$house" add .
    out=$(tools/check_includes "$house" 2>&1)
    code=$?
    expect "$1" "$4" "$out"
    expect "$1: exit code" 1 "$code"
    rm "$house/$2"
    [ ! -f "$work/before" ] || mv "$work/before" "$house/$2"
    git -C "$house" add .
}

breach "an include against the direction is reported with its line" \
    renderer/fixtures/emitter.h '\n#include <cmath>\n#include "transport/walk.h"\n' \
    "renderer/fixtures/emitter.h:3: fixtures/ may not include transport/"
breach "angle brackets and spaces do not hide an include" \
    renderer/fixtures/emitter.h ' # include <transport/walk.h>\n' \
    "renderer/fixtures/emitter.h:1: fixtures/ may not include transport/"
breach "an earlier folder that is not linked may not be included" \
    renderer/output/write_exr.h '#include "fixtures/emitter.h"\n' \
    "renderer/output/write_exr.h:1: output/ may not include fixtures/"
breach "a relative path is not allowed" \
    renderer/fixtures/emitter.h '#include "../transport/walk.h"\n' \
    'renderer/fixtures/emitter.h:1: "../transport/walk.h" does not begin with a folder of renderer/'
breach "a folder within a folder follows the rules of the outer one" \
    renderer/fixtures/lenses/lens.h '#include "base/units.h"\n#include "transport/walk.h"\n' \
    "renderer/fixtures/lenses/lens.h:2: fixtures/ may not include transport/"
breach "a file of a folder within a folder is included by its whole path" \
    renderer/fixtures/emitter.h '#include "lenses/lens.h"\n' \
    'renderer/fixtures/emitter.h:1: "lenses/lens.h" does not begin with a folder of renderer/'
breach "a folder within a folder is no way round" \
    renderer/math/vec.h '#include "fixtures/lenses/lens.h"\n' \
    "renderer/math/vec.h:1: math/ may not include fixtures/"
breach "only output includes the image library" \
    renderer/transport/walk.h '#include <OpenImageIO/imageio.h>\n' \
    "renderer/transport/walk.h:1: only renderer/output may include OpenImageIO/imageio.h"
breach "only geometry includes the ray tracing kernels" \
    tools/dapple/desk.cpp '#include <embree3/rtcore.h>\n' \
    "tools/dapple/desk.cpp:1: only renderer/geometry may include embree3/rtcore.h"
breach "only set includes the TOML reader" \
    renderer/output/sheet.cpp '#include <toml++/toml.h>\n' \
    "renderer/output/sheet.cpp:1: only renderer/set may include toml++/toml.h"
breach "the build may not link a later folder" \
    renderer/math/CMakeLists.txt 'dapple_folder(math\n    LINKS base\n        transport\n)\n' \
    "renderer/math/CMakeLists.txt:3: math/ may not link transport/, which does not come before it"
breach "no new file at the top level" \
    notes.txt 'x\n' "notes.txt: does not belong at the top level"

exit $((failures > 0))
