// Mistakes in [[glass]].
#include "scene/bad_set.h"

using namespace dapple;

namespace {

std::string jar(const std::string& more) {
    return "[[glass]]\nname = \"jar\"\nposition = [0, 0, 0]\n" + more + kWholeSet;
}

}  // namespace

TEST_CASE("each mistake in glass is reported in one line") {
    WrittenSet set;
    set.file("open.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nv 0 0 1\nf 1 3 2\nf 1 2 4\nf 1 4 3\n");
    set.file("twisted.obj",
             "v 0 0 0\nv 1 0 0\nv 0 1 0\nv 0 0 1\nf 1 3 2\nf 1 2 4\nf 1 4 3\nf 4 3 2\n");
    set.file("cube.obj", cube_obj());
    set.file("empty.obj", "v 0 0 0\n");
    check_lines(
        set,
        {{"open mesh",
          jar("model = \"open.obj\"\n"),
          "set.toml:4:1: glass \"jar\": model: \"open.obj\" has 3 open edges, the first near (0.5, "
          "0.5, 0) m; glass must be closed"},
         {"one face turned over",
          jar("model = \"twisted.obj\"\n"),
          "set.toml:4:1: glass \"jar\": model: \"twisted.obj\" has 3 twisted edges, the first near "
          "(0.5, 0.5, 0) m; neighbouring faces must turn the same way"},
         {"no faces", jar("model = \"empty.obj\"\n"), "empty.obj: has no faces, only 1 vertex"},
         {"form and model",
          jar("form = \"jar\"\nmodel = \"cube.obj\"\n"),
          "set.toml:5:1: glass \"jar\": needs exactly one of form (jar, bottle, tumbler, "
          "demijohn, carafe, ball, rod, pane) and model"},
         {"neither",
          jar(""),
          "set.toml:1:1: glass \"jar\": needs exactly one of form (jar, bottle, tumbler, "
          "demijohn, carafe, ball, rod, pane) and model"},
         {"unknown form",
          jar("form = \"tumbller\"\n"),
          "set.toml:4:1: glass \"jar\": form: is \"tumbller\"; must be one of jar, bottle, "
          "tumbler, demijohn, carafe, ball, rod, pane; did you mean tumbler?"},
         {"wall thicker than the radius",
          jar("form = \"jar\"\ndiameter_mm = 80\nwall_mm = 50\n"),
          "set.toml:6:1: glass \"jar\": wall_mm: is 50; must be below the radius, 40 mm"},
         {"negative height",
          jar("form = \"jar\"\nheight_mm = -260\n"),
          "set.toml:5:1: glass \"jar\": height_mm: is -260; must be above 0, up to 20000"},
         {"deep ribs",
          jar("form = \"jar\"\nribs = 24\nrib_depth_mm = 40\n"),
          "set.toml:1:1: glass \"jar\": wall and rib depth together must be at most a fifth of the "
          "diameter"},
         {"ribs on a ball",
          jar("form = \"ball\"\nribs = 24\n"),
          "set.toml:5:1: glass \"jar\": ribs: belongs to vessels, rod and pane"},
         {"two surfaces",
          jar("form = \"jar\"\nsurface = \"hammered\"\nribs = 24\n"),
          "set.toml:6:1: glass \"jar\": ribs: belongs to surface = \"ribbed\""},
         {"unknown surface",
          jar("form = \"jar\"\nsurface = \"reded\"\n"),
          "set.toml:5:1: glass \"jar\": surface: is \"reded\"; must be one of plain, ribbed, "
          "reeded, "
          "hammered, seeded, wavy; did you mean reeded?"},
         {"a pattern too deep for its pane",
          jar("form = \"pane\"\nsurface = \"reeded\"\npattern_depth_mm = 3\n"),
          "set.toml:6:1: glass \"jar\": a pattern must be at most half as deep as the pane is "
          "thick"},
         {"bubbles larger than the wall",
          jar("form = \"jar\"\nwall_mm = 2\nbubbles = 5\nbubble_mm = 3\n"),
          "set.toml:6:1: glass \"jar\": bubbles must be smaller than 0.8 of the glass around them"},
         {"spiral on a pane",
          jar("form = \"pane\"\nsurface = \"reeded\"\nrib_twist_deg = 20\n"),
          "set.toml:6:1: glass \"jar\": rib_twist_deg: belongs to ribs and reeds round a vessel or "
          "a "
          "rod"},
         {"rougher than rough",
          jar("form = \"jar\"\nroughness = 1.5\n"),
          "set.toml:5:1: glass \"jar\": roughness: is 1.5; must be from 0 to 1"},
         {"overfull",
          jar("form = \"jar\"\nfill = { liquid = \"water\", level = 1.2 }\n"),
          "set.toml:5:28: glass \"jar\": fill: level: is 1.2; must be from 0 to 1"},
         {"filled pane",
          jar("form = \"pane\"\nfill = { level = 0.5 }\n"),
          "set.toml:5:1: glass \"jar\": only a jar, bottle, tumbler, demijohn or carafe can "
          "be filled"},
         {"unit without a model",
          jar("form = \"jar\"\nunit = \"cm\"\n"),
          "set.toml:5:1: glass \"jar\": unit: is only for a model; made glass is in millimetres"},
         {"no place",
          "[[glass]]\nform = \"jar\"\n" + kWholeSet,
          "set.toml:1:1: glass 1: position: is missing; give [x, y, z] in metres"}});
}
