// What a set must not say gives one clear line each, with file, line and column.
#include "scene/written_set.h"

using namespace dapple;

namespace {

struct BadSet {
    const char* what;
    std::string text;  // lines are counted from its start
    std::string line;
};

void check_lines(WrittenSet& set, const std::vector<BadSet>& bad_sets) {
    for (const BadSet& bad : bad_sets) {
        set.build(bad.text);
        const std::vector<std::string> lines = set.lines();
        CAPTURE(bad.what);
        for (size_t i = 1; i < lines.size(); ++i) FAIL_CHECK("one line too many: " << lines[i]);
        REQUIRE_FALSE(lines.empty());
        CHECK(lines[0] == bad.line);
    }
}

const std::string kAllButCamera = kRoom + kFixture;   // all but a camera
const std::string kStage = kRoom + kCamera;           // all but a fixture
const std::string kAll = kRoom + kCamera + kFixture;  // 11 lines

std::string spot(const std::string& more) {
    return "[[fixture]]\nname = \"net\"\nposition = [1, 2, 1]\naim = [0, 1, 0]\n" + more + kStage;
}

std::string jar(const std::string& more) {
    return "[[glass]]\nname = \"jar\"\nposition = [0, 0, 0]\n" + more + kAll;
}

std::string surface(const std::string& more) {
    return "[[surface]]\nname = \"floor\"\n" + more + kAll;
}

}  // namespace

TEST_CASE("a camera that cannot be is said in one line") {
    const std::string at = "[camera]\nposition = [0, 1, 2]\n";
    const std::string camera = at + "aim = [0, 1, 0]\n";
    WrittenSet set;
    check_lines(set,
                {{"none", kAllButCamera, "set.toml: camera: is missing; a set needs one [camera]"},
                 {"no position",
                  "[camera]\naim = [0, 1, 0]\n" + kAllButCamera,
                  "set.toml:1:1: camera: position: is missing; give [x, y, z] in metres"},
                 {"no aim",
                  at + kAllButCamera,
                  "set.toml:1:1: camera: aim: is missing; give [x, y, z] in metres"},
                 {"looking nowhere",
                  at + "aim = [0, 1, 2.0]\n" + kAllButCamera,
                  "set.toml:3:1: camera: aim: equals the position: the camera looks nowhere"},
                 {"far away",
                  "[camera]\nposition = [0, 1e30, 2]\naim = [0, 0, 0]\n" + kAllButCamera,
                  "set.toml:2:1: camera: position: has 1e+30; must be within 100000 m"},
                 {"negative focal length",
                  camera + "focal_length_mm = -35\n" + kAllButCamera,
                  "set.toml:4:1: camera: focal_length_mm: is -35; must be above 0, up to 10000"},
                 {"no pixels",
                  camera + "frame_px = [0, 640]\n" + kAllButCamera,
                  "set.toml:4:1: camera: frame_px: has 0; both must be from 1 to 16384"},
                 {"too many pixels",
                  camera + "frame_px = [960, 16385]\n" + kAllButCamera,
                  "set.toml:4:1: camera: frame_px: has 16385; both must be from 1 to 16384"},
                 {"flat sensor",
                  camera + "sensor_mm = [36, 0]\n" + kAllButCamera,
                  "set.toml:4:1: camera: sensor_mm: has 0; both must be above 0, up to 1000"},
                 {"focus inside the lens",
                  camera + "focal_length_mm = 50\nfocus_m = 0.05\n" + kAllButCamera,
                  "set.toml:5:1: camera: focus_m: is 0.05; must be above the focal length, 0.05 m"},
                 {"white of no light",
                  camera + "white_k = 43\n" + kAllButCamera,
                  "set.toml:4:1: camera: white_k: is 43; must be from 1500 to 25000"}});
}

TEST_CASE("a fixture that cannot be is said in one line") {
    const std::string beam = "beam_angle_deg = 20\n";
    const std::string lumens = "output_lm = 100\n";
    const std::string good = beam + lumens;
    WrittenSet set;
    check_lines(
        set,
        {{"none",
          kStage,
          "set.toml: fixture: is missing; a set needs at least one [[fixture]] or [[window]]"},
         {"field angle not above beam angle",
          spot(good + "field_angle_deg = 20\n"),
          "set.toml:7:1: fixture \"net\": field_angle_deg: is 20; must be above the beam angle, "
          "20, and below 180"},
         {"beam of 180 degrees",
          spot(lumens + "beam_angle_deg = 180\n"),
          "set.toml:6:1: fixture \"net\": beam_angle_deg: is 180; must be above 0 and below 180"},
         {"negative beam",
          spot(lumens + "beam_angle_deg = -5\n"),
          "set.toml:6:1: fixture \"net\": beam_angle_deg: is -5; must be above 0 and below 180"},
         {"no beam",
          spot(lumens),
          "set.toml:1:1: fixture \"net\": beam_angle_deg: is missing; form \"spot\" needs it"},
         {"no output",
          spot(beam),
          "set.toml:1:1: fixture \"net\": has no output; give exactly one of output_lm, peak_cd, "
          "lux = { value, at_m }"},
         {"two outputs",
          spot(good + "peak_cd = 5\n"),
          "set.toml:7:1: fixture \"net\": has 2 outputs; give exactly one of output_lm, peak_cd, "
          "lux = { value, at_m }"},
         {"lux without a distance",
          spot(beam + "lux = { value = 5 }\n"),
          "set.toml:6:1: fixture \"net\": lux: at_m: is missing; give the distance in metres"},
         {"dark lamp",
          spot(beam + "output_lm = 0\n"),
          "set.toml:6:1: fixture \"net\": output_lm: is 0; must be above 0, up to 1e+09"},
         {"aims nowhere",
          "[[fixture]]\nname = \"net\"\nposition = [1, 2, 1]\naim = [1, 2, 1]\n" + good + kStage,
          "set.toml:4:1: fixture \"net\": aim: equals the position: the fixture aims nowhere"},
         {"dimmer above 1",
          spot(good + "dimmer = 50\n"),
          "set.toml:7:1: fixture \"net\": dimmer: is 50; must be from 0 to 1"},
         {"an LED that a dimmer warms",
          spot(good + "dimmer_warms = true\n"),
          "set.toml:7:1: fixture \"net\": dimmer_warms: belongs to source \"tungsten\"; leave it "
          "out, as other sources keep their colour"},
         {"a misspelt source, told once",
          spot(good + "source = \"tungten\"\ndimmer_warms = false\n"),
          "set.toml:7:1: fixture \"net\": source: is \"tungten\"; must be one of led, tungsten, "
          "daylight, flat; did you mean tungsten?"},
         {"hot tungsten",
          spot(good + "source = \"tungsten\"\ncct_k = 5600\n"),
          "set.toml:8:1: fixture \"net\": cct_k: is 5600; must be from 1500 to 3600"},
         {"cold daylight",
          spot(good + "source = \"daylight\"\ncct_k = 3200\n"),
          "set.toml:8:1: fixture \"net\": cct_k: is 3200; must be from 4000 to 25000"},
         {"unknown source",
          spot(good + "source = \"tungten\"\n"),
          "set.toml:7:1: fixture \"net\": source: is \"tungten\"; must be one of led, tungsten, "
          "daylight, flat; did you mean tungsten?"},
         {"negative source",
          spot(good + "source_mm = -1\n"),
          "set.toml:7:1: fixture \"net\": source_mm: is -1; must be from 0 to 10000"},
         {"panel without a size",
          spot(lumens + "form = \"panel\"\n"),
          "set.toml:1:1: fixture \"net\": panel_m: is missing; form \"panel\" needs it: [width, "
          "height]"},
         {"narrow housing",
          spot(good + "source_mm = 100\nhousing_mm = [90, 100]\n"),
          "set.toml:8:1: fixture \"net\": housing_mm: is 90 across; must not be narrower than "
          "source_mm, 100"},
         {"missing photometric file",
          spot(good + "photometry = \"no.ies\"\n"),
          "set.toml:7:1: fixture \"net\": photometry: is \"no.ies\"; there is no such file"},
         {"barn doors bent back too far",
          spot(good + "barn_doors_deg = [90, 90, 90, 190]\n"),
          "set.toml:7:1: fixture \"net\": barn_doors_deg: has 190; must be from 0 (shut) to 180 "
          "(folded back); 90 is straight ahead"},
         {"barn doors on a bulb",
          spot(lumens + "form = \"bare\"\nbarn_doors_deg = [90, 90, 90, 90]\n"),
          "set.toml:7:1: fixture \"net\": barn_doors_deg: belongs to form \"spot\" or \"panel\""},
         {"doors and snoot",
          spot(good + "barn_doors_deg = [90, 90, 90, 90]\nsnoot_mm = [50, 100]\n"),
          "set.toml:8:1: fixture \"net\": snoot_mm: is given beside barn_doors_deg; give only one "
          "of them"},
         {"narrow snoot",
          spot(good + "source_mm = 60\nsnoot_mm = [50, 100]\n"),
          "set.toml:8:1: fixture \"net\": snoot_mm: is 50 across; must not be narrower than "
          "source_mm, 60"},
         {"snoot on a panel",
          spot(lumens + "form = \"panel\"\npanel_m = [1, 1]\nsnoot_mm = [50, 100]\n"),
          "set.toml:8:1: fixture \"net\": snoot_mm: belongs to form \"spot\""},
         {"stand in its own light",
          "[[fixture]]\nname = \"net\"\nposition = [1, 2, 1]\naim = [1, 0, 1]\nstand = true\n" +
              good + kStage,
          "set.toml:5:1: fixture \"net\": stand: would stand in the light of a fixture that aims "
          "straight down; leave it out"},
         {"no distance from heat",
          spot(good + "clearance_m = 0\n"),
          "set.toml:7:1: fixture \"net\": clearance_m: is 0; must be above 0, up to 100"},
         {"mains of a power line",
          spot(good + "[power]\nvolts = 10000\n"),
          "set.toml:8:1: power: volts: is 10000; must be from 1 to 1000"},
         {"no name",
          "[[fixture]]\nposition = [1, 2, 1]\naim = [0, 1, 0]\n" + good + kStage,
          "set.toml:1:1: fixture 1: name: is missing; a fixture needs a name"},
         {"two of a name",
          spot(good) + "[[fixture]]\nname = \"net\"\nposition = [1, 2, 1]\naim = [0, 1, 0]\n" +
              good,
          "set.toml:13:1: fixture \"net\": name: is used by two fixtures, the first in line 2; "
          "names must differ"},
         {"name of another layer",
          "[[fixture]]\nname = \"normal\"\nposition = [1, 2, 1]\naim = [0, 1, 0]\n" + good + kStage,
          "set.toml:2:1: fixture \"normal\": name: is the name of another layer; choose a "
          "different one"}});
}

TEST_CASE("glass that cannot be is said in one line") {
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
          "set.toml:5:1: glass \"jar\": unit: belongs to model"},
         {"no place",
          "[[glass]]\nform = \"jar\"\n" + kAll,
          "set.toml:1:1: glass 1: position: is missing; give [x, y, z] in metres"}});
}

TEST_CASE("a room that cannot be is said in one line") {
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
          "set.toml:3:1: room: unit: is \"km\"; must be one of m, cm, mm, ft, in; did you mean m?"},
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

TEST_CASE("a surface that cannot be is said in one line") {
    WrittenSet set;
    set.file("sheet.obj", "mtllib a.mtl\nv 0 0 0\nv 1 0 0\nv 0 1 0\nusemtl pane\nf 1 2 3\n");
    set.file("a.mtl", "newmtl pane\nKd 0.5 0.5 0.5\n");
    check_lines(
        set,
        {{"a name that the model lacks",
          "[[surface]]\nname = \"flor\"\n" + kAll,
          "set.toml:2:1: surface \"flor\": name: is \"flor\"; the room has no surface of this "
          "name; "
          "did you mean \"floor\"?"},
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
          "set.toml:3:1: surface \"floor\": thin: belongs to glass"},
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

TEST_CASE("boards, meters, regions, windows and stand-ins that cannot be are said in one line") {
    const std::string place = "position = [0, 1, 0]\naim = [0, 1, 1]\n";
    WrittenSet set;
    check_lines(
        set,
        {{"board without a size",
          "[[flag]]\n" + place + kAll,
          "set.toml:1:1: flag 1: needs exactly one of size_m = [width, height] and diameter_m"},
         {"board with two sizes",
          "[[flag]]\n" + place + "size_m = [1, 1]\ndiameter_m = 1\n" + kAll,
          "set.toml:5:1: flag 1: needs exactly one of size_m = [width, height] and diameter_m"},
         {"negative size",
          "[[bounce]]\n" + place + "size_m = [1, -1]\n" + kAll,
          "set.toml:4:1: bounce 1: size_m: has -1; both must be above 0, up to 100"},
         {"looks nowhere",
          "[[flag]]\nposition = [0, 1, 0]\naim = [0, 1, 0]\ndiameter_m = 1\n" + kAll,
          "set.toml:3:1: flag 1: aim: equals the position: its face looks nowhere"},
         {"diffuser that gives light",
          "[[diffuser]]\n" + place + "diameter_m = 1\ntransmission = 1.5\n" + kAll,
          "set.toml:5:1: diffuser 1: transmission: is 1.5; must be from 0 to 1"},
         {"meter facing nowhere",
          "[[meter]]\nname = \"m\"\nposition = [0, 1, 0]\nfacing = [0, 1, 0]\n" + kAll,
          "set.toml:4:1: meter \"m\": facing: equals the position: the meter faces nowhere"},
         {"meter with an unknown receptor",
          "[[meter]]\nname = \"m\"\nposition = [0, 1, 0]\nfacing = [0, 2, 0]\nreceptor = "
          "\"dom\"\n" +
              kAll,
          "set.toml:5:1: meter \"m\": receptor: is \"dom\"; must be one of flat, dome; did you "
          "mean "
          "dome?"},
         {"meter of two sizes",
          "[[meter]]\nname = \"m\"\nposition = [0, 1, 0]\nfacing = [0, 2, 0]\nreceptor_mm = 20\n"
          "size_m = [1, 1]\n" +
              kAll,
          "set.toml:6:1: meter \"m\": size_m: reads the mean over a flat area; leave out receptor "
          "= "
          "\"dome\" and receptor_mm, or size_m"},
         {"region of an unknown surface",
          "[[region]]\nname = \"r\"\nsurface = \"wall_bak\"\n" + kAll,
          "set.toml:3:1: region \"r\": surface: is \"wall_bak\"; the room has no surface of this "
          "name; did you mean \"wall_back\"?"},
         {"region outside the frame",
          "[[region]]\nname = \"r\"\nrect_px = [0, 0, 961, 640]\n" + kAll,
          "set.toml:3:1: region \"r\": rect_px: must be [x0, y0, x1, y1] with x0 < x1 and y0 < y1 "
          "inside the frame of 960 x 640 px"},
         {"region of nothing",
          "[[region]]\nname = \"r\"\n" + kAll,
          "set.toml:1:1: region \"r\": needs surface or rect_px, or both"},
         {"two regions of a name",
          "[[region]]\nname = \"r\"\nsurface = \"floor\"\n[[region]]\nname = \"r\"\nsurface = "
          "\"floor\"\n" +
              kAll,
          "set.toml:5:1: region \"r\": name: is used twice, first in line 2; names must differ"},
         {"window in no wall",
          "[[window]]\nsurface = \"sky\"\nluminance_cd_m2 = 5\n" + kAll,
          "set.toml:2:1: window 1: surface: is \"sky\"; the room has no surface of this name"},
         {"giant",
          "[[stand_in]]\nposition = [0, 0, 0]\nheight_m = 17\n" + kAll,
          "set.toml:3:1: stand_in 1: height_m: is 17; must be from 0.3 to 2.5"},
         {"figure in no pose",
          "[[stand_in]]\nposition = [0, 0, 0]\npose = \"seeted\"\n" + kAll,
          "set.toml:3:1: stand_in 1: pose: is \"seeted\"; must be one of standing, seated, "
          "arm_raised; did you mean seated?"},
         {"figure of no skin",
          "[[stand_in]]\nposition = [0, 0, 0]\nskin = \"pale\"\n" + kAll,
          "set.toml:3:1: stand_in 1: skin: is \"pale\"; must be one of light, medium, dark"},
         {"skin that gives light",
          "[[stand_in]]\nposition = [0, 0, 0]\nskin = [0.5, 2, 0.5]\n" + kAll,
          "set.toml:3:1: stand_in 1: skin: has 2; must be from 0 to 0.98"},
         {"dress that gives light",
          "[[stand_in]]\nposition = [0, 0, 0]\ndress = { transmission = 0.5, reflectance = 0.6 "
          "}\n" +
              kAll,
          "set.toml:3:31: stand_in 1: dress: reflectance: transmission and reflectance together "
          "are 1.1; must be at most 1"},
         {"figure beside the room",
          "[[stand_in]]\nposition = [0, 0, 3]\n" + kAll,
          "set.toml:2:1: stand_in 1: position: is outside the room: z is 3; must be from -2.5 to "
          "2.5"}});
}

TEST_CASE("all problems of a set are told together, those of reading and of checking") {
    WrittenSet set;
    set.build(
        "titel = \"a\"\n[room]\nsize_m = [1, 2, -3]\n[camera]\nposition = [0, 0, 0]\n"
        "aim = [0, 0, 0]\niso = \"a\"\n[[fixture]]\nname = \"key\"\ndimmer = 2\n");
    // titel, size_m, aim, iso, dimmer, and of the fixture: position, aim, beam and output.
    CHECK(set.lines().size() == 9);
}

TEST_CASE("a value of the wrong type is not called missing as well") {
    WrittenSet set;
    set.build(kAllButCamera + "[camera]\nposition = 5\naim = [0, 1, 0]\n");
    CHECK(set.lines().size() == 1);
}

TEST_CASE("what is not TOML is told once and nothing is called missing") {
    WrittenSet set;
    set.build("[camera\n");
    CHECK(set.lines().size() == 1);
}
