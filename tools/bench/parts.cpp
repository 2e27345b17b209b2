#include "parts.h"

#include "base/parallel.h"
#include "render/meter_sink.h"
#include "render/read_meters.h"
#include "render/trace_walks.h"

namespace dapple {

namespace {

Film make_film(const Setup& setup) {
    const Camera& camera = setup.scene.camera;
    return Film(camera.width, camera.height, setup.groups.groups, sum_quantum(camera, 26));
}

}  // namespace

Parts::Parts(const Scene& scene, const World& world, const RenderOptions& options, uint32_t pass)
    : frame_(scene, world, options, watch_),
      pass_(frame_, pass),
      vertices_(pass_),
      no_groups_{{}, std::vector<int>(frame_.setup.groups.first.size(), 0)},
      film_(make_film(frame_.setup)),
      meters_(make_meter_film(frame_.setup)),
      sink_(film_, meters_, frame_.setup.groups, frame_.first_hits, frame_.setup.lens),
      footprints_sink_(film_, meters_, no_groups_, frame_.first_hits, frame_.setup.lens) {
    const ThreadLimit one(1);
    film_.begin_pass(pass_.wavelengths);
    meters_.begin_pass(pass_.wavelengths);
    TotalCounts counts;
    trace_light_walks(pass_.stage, log_, &vertices_.kept(), counts, watch_);
    vertices_.index_beams(pass_.stage);
    vertices_.index(pass_, pass_.stage);
}

double Parts::walk_seconds(LightSink& sink) {
    PassVertices vertices(pass_);
    TotalCounts counts;
    const Clock clock;
    trace_light_walks(pass_.stage, sink, &vertices.kept(), counts, watch_);
    return clock.seconds();
}

double Parts::splat_seconds(FilmSink& sink, const SplatRadii& radii) const {
    if (log_.kept().empty()) return 0;
    sink.set_radii(radii);
    const Clock clock;
    {
        const std::unique_ptr<LightSink> buffered = sink.make_buffered(0);
        for (const Splat& s : log_.kept()) {
            buffered->add_splat({s.parts.data(), s.count}, s.footprint, s.at, s.fixture);
        }
    }
    const double kept = static_cast<double>(log_.kept().size());
    return clock.seconds() * static_cast<double>(log_.met()) / kept;
}

double Parts::camera_seconds(bool gathers) {
    Stage stage = pass_.stage;
    if (!gathers) stage.photons = nullptr;
    TotalCounts counts;
    const Clock clock;
    trace_camera_walks(stage, frame_.camera_plan, sink_, counts, watch_);
    return clock.seconds();
}

PartTimes Parts::time() {
    const ThreadLimit one(1);
    PartTimes seconds;
    MeterSink no_splats(meters_);
    sink_.set_radii(pass_.splat_radii);
    seconds.splats = walk_seconds(sink_) - walk_seconds(no_splats);
    seconds.splats_alone = splat_seconds(sink_, pass_.splat_radii);
    seconds.footprints = splat_seconds(footprints_sink_, pass_.splat_radii);
    seconds.points = splat_seconds(sink_, {});
    if (pass_.stage.photons) seconds.gathering = camera_seconds(true) - camera_seconds(false);
    return seconds;
}

}  // namespace dapple
