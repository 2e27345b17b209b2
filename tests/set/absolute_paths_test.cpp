#include "set/absolute_paths.h"

#include <doctest/doctest.h>

using namespace dapple;

TEST_CASE("relative paths become absolute and all else stays") {
    CHECK(
        with_absolute_paths("[room]\nmodel = \"../hall.obj\" # big\n[[fixture]]\nname = \"model\"\n"
                            "photometry = 'a.ies'\ngel = { file = \"/x/b.csv\", stops = 1 }\n"
                            "[[flag]]\nstencil = \"c d.png\"\n",
                            "/sets/one") ==
        "[room]\nmodel = '/sets/hall.obj' # big\n[[fixture]]\nname = \"model\"\n"
        "photometry = '/sets/one/a.ies'\ngel = { file = \"/x/b.csv\", stops = 1 }\n"
        "[[flag]]\nstencil = '/sets/one/c d.png'\n");
}
