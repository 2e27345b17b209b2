// Mistakes in [room] and [[surface]].
#include "scene/bad_set.h"

using namespace dapple;

namespace {

std::string surface(const std::string& more) {
    return "[[surface]]\nname = \"floor\"\n" + more + kWholeSet;
}

}  // namespace

TEST_CASE("each mistake in a room is reported in one line") {
    const std::string rest = kCamera + kFixture;
    WrittenSet set;
    set.file("empty.obj", "# nothing\n");
    set.file("cube.obj", cube_obj());
    check_lines(
        set,
        {{"missing model",
          "[room]\nmodel = \"no.obj\"\n" + rest,
          "set.toml:2:1: room: model: is \"no.obj\"; there is no such file"},
         {"empty model", "[room]\nmodel = \"empty.obj\"\n" + rest, "empty.obj: has no faces"},
         {"model and size",
          "[room]\nmodel = \"cube.obj\"\nsize_m = [1, 2, 3]\n" + rest,
          "set.toml:1:1: room: needs exactly one of model and size_m"},
         {"nothing",
          "[room]\n" + rest,
          "set.toml:1:1: room: needs exactly one of model and size_m"},
         {"negative length",
          "[room]\nsize_m = [4, -5, 3]\n" + rest,
          "set.toml:2:1: room: size_m: has -5; all three must be above 0, up to 10000"},
         {"unknown unit",
          "[room]\nmodel = \"cube.obj\"\nunit = \"km\"\n" + rest,
          "set.toml:3:1: room: unit: is \"km\"; must be one of m, cm, mm, ft, in"},
         {"unit of a box",
          "[room]\nsize_m = [4, 5, 3]\nunit = \"ft\"\n" + rest,
          "set.toml:3:1: room: unit: belongs to model; size_m is in metres"},
         {"reflectance of a model",
          "[room]\nmodel = \"cube.obj\"\nreflectance = 0.5\n" + rest,
          "set.toml:3:1: room: reflectance: belongs to size_m; the model has its own, see "
          "[[surface]]"},
         {"perfect mirror",
          "[room]\nsize_m = [4, 5, 3]\nreflectance = 1\n" + rest,
          "set.toml:3:1: room: reflectance: has 1; must be from 0 to 0.98"}});
}

TEST_CASE("each mistake in a surface is reported in one line") {
    WrittenSet set;
    set.file("sheet.obj", "mtllib a.mtl\nv 0 0 0\nv 1 0 0\nv 0 1 0\nusemtl pane\nf 1 2 3\n");
    set.file("a.mtl", "newmtl pane\nKd 0.5 0.5 0.5\n");
    check_lines(
        set,
        {{"a name that the model lacks",
          "[[surface]]\nname = \"flor\"\n" + kWholeSet,
          "set.toml:2:1: surface \"flor\": name: is \"flor\"; the room has no surface of this "
          "name; "
          "did you mean \"floor\"?"},
         {"a figure's dress",
          "[[surface]]\nname = \"lady dress\"\n" + kWholeSet +
              "[[stand_in]]\nname = \"lady\"\nposition = [0, 0, 0]\n",
          "set.toml:2:1: surface \"lady dress\": name: is \"lady dress\", of a figure; its "
          "[[stand_in]] sets it by dress = { reflectance = …, transmission = … }; a dress has no "
          "gloss"},
         {"a name that is like none",
          "[[surface]]\nname = \"everywhere\"\n" + kWholeSet,
          "set.toml:2:1: surface \"everywhere\": name: is \"everywhere\"; the room has no surface "
          "of "
          "this name; there are \"floor\", \"ceiling\", \"wall_left\", "
          "\"wall_right\", \"wall_back\", \"wall_front\""},
         {"twice",
          surface("[[surface]]\nname = \"floor\"\n"),
          "set.toml:4:1: surface \"floor\": name: is used twice, first in line 2"},
         {"too white",
          surface("reflectance = 0.99\n"),
          "set.toml:3:1: surface \"floor\": reflectance: has 0.99; must be from 0 to 0.98"},
         {"metal cloth",
          surface("metal = true\ntransmission = 0.5\n"),
          "set.toml:1:1: surface \"floor\": is of more than one kind; give only one of metal, "
          "coat, "
          "transmission (with spread_deg and direct) and glass"},
         {"more light than there is",
          surface("transmission = 0.6\nreflectance = 0.5\n"),
          "set.toml:4:1: surface \"floor\": reflectance: transmission and reflectance together are "
          "1.1; must be at most 1"},
         {"direct above transmission",
          surface("transmission = 0.2\ndirect = 0.3\n"),
          "set.toml:4:1: surface \"floor\": direct: is 0.3; must be a part of transmission, from 0 "
          "to 0.2"},
         {"thin without glass",
          surface("thin = true\n"),
          "set.toml:3:1: surface \"floor\": thin: is only for surfaces of glass; give glass too, "
          "or leave it out"},
         {"unknown glass",
          surface("glass = \"sodalime\"\nthin = true\n"),
          "set.toml:3:1: surface \"floor\": glass: is \"sodalime\"; must be one of soda-lime, "
          "borosilicate, lead-crystal, silica, acrylic, water, oil, air; did you mean "
          "soda-lime?"},
         {"open glass in the room",
          "[room]\nmodel = \"sheet.obj\"\n[[surface]]\nname = \"pane\"\nglass = \"soda-lime\"\n" +
              kCamera + kFixture,
          "set.toml:2:1: room: model: surface \"pane\" has 3 open edges, the first near (0.5, 0, "
          "0) "
          "m; glass must be closed; give thin = true for a pane of one face"}});
}
