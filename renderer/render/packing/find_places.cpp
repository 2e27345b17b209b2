#include "render/packing/find_places.h"

#include "geometry/glassware/make_glass.h"
#include "geometry/lay_figure/make_stand_in.h"
#include "geometry/make_attachments.h"
#include "geometry/make_board.h"
#include "geometry/make_housing.h"
#include "render/packing/column_under.h"
#include "render/packing/find_room_box.h"
#include "render/packing/how_it_is_set.h"
#include "render/packing/silhouettes.h"
#include "scene/defaults.h"

namespace dapple {

namespace {

class PlaceFinder {
  public:
    PlaceFinder(const Scene& scene, const DaySheet& sheet) : scene_(scene), sheet_(sheet) {}

    std::vector<PlacedThing> find() {
        add_camera();
        add_fixtures();
        add_glasses();
        add_boards(BoardKind::kDiffuser, PlaceKind::kCloth, "C");
        add_boards(BoardKind::kFlag, PlaceKind::kFlag, "F");
        add_boards(BoardKind::kBounce, PlaceKind::kBounce, "B");
        add_figures();
        add_meters();
        return std::move(places_);
    }

  private:
    TapePlace tape(const Point& p) const {
        TapePlace place;
        place.position = p;
        if (sheet_.room.box) {
            const Point& corner = sheet_.room.box->low;
            place.from_walls = Vec2(p.x - corner.x, p.z - corner.z);
        }
        // A point on the floor is above it.
        constexpr float kLift = 1e-3F;  // m
        const std::optional<float> floor =
            floor_under(scene_, sheet_.room.box, p + Vec3(0, kLift, 0));
        if (floor) place.height = p.y - *floor;
        return place;
    }

    PlacedThing& add(PlaceKind kind, const std::string& label, const std::string& name) {
        PlacedThing& thing = places_.emplace_back();
        thing.kind = kind;
        thing.label = label;
        thing.name = name;
        return thing;
    }

    void outline(PlacedThing& thing, const Mesh& mesh, bool by_parts = false) const {
        const auto add_view = [&](std::vector<FlatPolygon>& to, SheetView view) {
            const bool z = sheet_.side_shows_z;
            const std::vector<FlatPolygon> found =
                by_parts ? outlines_of_parts(mesh, view, z) : outline_of(mesh, view, z);
            to.insert(to.end(), found.begin(), found.end());
        };
        add_view(thing.from_above, SheetView::kAbove);
        add_view(thing.from_side, SheetView::kSide);
    }

    void add_camera() {
        PlacedThing& thing = add(PlaceKind::kCamera, "cam", "camera");
        const Camera& camera = scene_.camera;
        thing.at = tape(camera.position);
        thing.aim = tape(camera.aim);
        thing.how = how_camera_is_set(camera);
    }

    void add_fixtures() {
        for (size_t i = 0; i < sheet_.list.fixtures.size(); ++i) {
            const Fixture& f = scene_.fixtures[i];
            const PackedFixture& packed = sheet_.list.fixtures[i];
            PlacedThing& thing = add(PlaceKind::kFixture, std::to_string(i + 1), f.name);
            thing.at = tape(f.position);
            if (f.aim) thing.aim = tape(*f.aim);
            thing.how = how_fixture_is_set(f, packed);
            for (const Mesh& mesh :
                 {make_housing(f), make_barn_doors(f, kNoMaterial), make_snoot(f, kNoMaterial)}) {
                outline(thing, mesh);
            }
            if (f.form == FixtureForm::kPanel) outline(thing, panel_face(f));
            if (f.stand) outline_stand(thing, f);
            if (f.form != FixtureForm::kBare) thing.beam = beam_of(f, packed);
        }
    }

    static Mesh panel_face(const Fixture& f) {
        const Frame frame = fixture_frame(f);
        const Vec3 across = 0.5F * f.panel_size.x * frame.s;
        const Vec3 up = 0.5F * f.panel_size.y * frame.t;
        Mesh face;
        face.positions = {f.position - across - up,
                          f.position + across - up,
                          f.position + across + up,
                          f.position - across + up};
        return face;
    }

    void outline_stand(PlacedThing& thing, const Fixture& f) const {
        const std::optional<float> floor = floor_under(scene_, sheet_.room.box, f.position);
        if (!floor) return;
        for (const StandRod& rod : stand_rods(f, *floor)) {
            const auto line = [&](SheetView view) {
                const bool z = sheet_.side_shows_z;
                return FlatPolygon{in_view(rod.from, view, z), in_view(rod.to, view, z)};
            };
            thing.from_above.push_back(line(SheetView::kAbove));
            thing.from_side.push_back(line(SheetView::kSide));
        }
    }

    static DrawnBeam beam_of(const Fixture& f, const PackedFixture& packed) {
        constexpr double kPanelLength = 0.8;  // m: a panel's light has no edge
        DrawnBeam beam;
        beam.axis = f.axis;
        beam.length = packed.meets.empty() ? 2.0 : packed.meets.back().distance;
        if (f.form == FixtureForm::kPanel) beam.length = kPanelLength;
        if (!packed.beam_angle) return beam;
        beam.beam_angle = *packed.beam_angle;
        beam.field_angle = f.wide_beam_angle > 0 ? f.wide_field_angle : f.field_angle;
        return beam;
    }

    void add_glasses() {
        for (size_t i = 0; i < scene_.glasses.size(); ++i) {
            const GlassObject& glass = scene_.glasses[i];
            PlacedThing& thing = add(PlaceKind::kGlass, "G" + std::to_string(i + 1), glass.name);
            thing.at = tape(glass.position - Vec3(0, kAirFilm, 0));
            thing.how = how_glass_is_set(glass, scene_);
            const Column* column = column_under(scene_, thing.at.position);
            if (column != nullptr) thing.how += ", on the " + column->name;
            outline(thing, make_glass(glass, scene_).front());
        }
    }

    void add_boards(BoardKind kind, PlaceKind place, const std::string& letter) {
        int number = 0;
        for (const Board& board : scene_.boards) {
            if (board.kind != kind) continue;
            PlacedThing& thing = add(place, letter + std::to_string(++number), board.name);
            thing.at = tape(board.centre);
            if (board.aim) thing.aim = tape(*board.aim);
            thing.how = how_board_is_set(board, scene_);
            outline(thing, make_board(board));
        }
    }

    void add_figures() {
        for (size_t i = 0; i < scene_.stand_ins.size(); ++i) {
            const StandIn& figure = scene_.stand_ins[i];
            PlacedThing& thing = add(PlaceKind::kFigure, "P" + std::to_string(i + 1), figure.name);
            thing.at = tape(figure.position);
            thing.how = how_figure_is_set(figure);
            for (const Mesh& mesh : make_stand_in(figure)) outline(thing, mesh, true);
        }
    }

    void add_meters() {
        for (size_t i = 0; i < scene_.meters.size(); ++i) {
            const Meter& meter = scene_.meters[i];
            PlacedThing& thing = add(PlaceKind::kMeter, "M" + std::to_string(i + 1), meter.name);
            thing.at = tape(meter.position);
            thing.aim = tape(meter.aim);
            thing.how = how_meter_is_set(meter);
        }
    }

    const Scene& scene_;
    const DaySheet& sheet_;
    std::vector<PlacedThing> places_;
};

}  // namespace

std::vector<PlacedThing> find_places(const Scene& scene, const DaySheet& sheet) {
    return PlaceFinder(scene, sheet).find();
}

}  // namespace dapple
