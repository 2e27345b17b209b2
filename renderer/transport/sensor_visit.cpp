#include "transport/sensor_visit.h"

#include <algorithm>
#include <cmath>

#include "transport/partition.h"

namespace dapple {

float SensorVisit::light_walks(size_t fixture, bool only_smooth) const {
    // Haze scatters no light walks, so none makes the same path.
    if (sensor_.walk.history.any_haze()) return 0;
    return sensor_.from_lens() ? stage_.light_walks(fixture)
                               : stage_.light_walks_per_meter_walk(fixture, only_smooth);
}

float SensorVisit::sheet_density_here(size_t fixture) const {
    // Sheet sampling does not sample the point that the lens sees first.
    if (!stage_.sheets || (sensor_.walk.edge == 1 && sensor_.from_lens())) return 0;
    return stage_.sheets->density(fixture, vertex_.at) * sensor_.walk.weights.join *
           sensor_.before.asked.sheet(fixture);
}

float SensorVisit::sheet_density_before(size_t fixture) const {
    const LastSheet& last = sensor_.last_sheet;
    if (!stage_.sheets || last.sheet < 0) return 0;
    return stage_.sheets->density(fixture, last.sheet, last.barycentric) * last.join *
           last.asked.sheet(fixture);
}

void SensorVisit::add_emission() const {
    const Walk& walk = sensor_.walk;
    const auto fixture = static_cast<size_t>(vertex_.at.lamp);
    const Emitter& emitter = stage_.emitters[fixture];
    const LampLight light = emitter.eval(vertex_.at.position, vertex_.wo_world);
    if (!(light.luminance > 0.0F)) return;
    const bool from_point = sensor_.end == SensorEnd::kPointReceptor;
    const bool counts = walk.history.any_haze()
                            ? counts_lamp_after_haze(stage_, walk, fixture)
                            : counts_lamp(stage_, sensor_.from_lens(), from_point, walk);
    if (!counts) return;
    float weight = 1;
    const bool seen_directly = walk.edge == 1 && sensor_.from_lens();
    if (!stage_.partition && !seen_directly) {
        MetLamp lamp;
        lamp.pdf_lamp_point =
            emitter.pdf_towards(walk.last_position, light.position, light.normal) *
            (sensor_.before.asked.lamp(fixture) + sheet_density_before(fixture));
        lamp.emitted =
            light_walks(fixture, walk.history.only_smooth()) * light.pdf_area * light.pdf_direction;
        weight = 1.0F / balance_of_met_lamp(sums(fixture), lamp);
    }
    by_fixture_[fixture] += walk.light.throughput * (light.luminance * weight);
}

void SensorVisit::add_direct_light(size_t fixture,
                                   const SensorPlace& place,
                                   const std::array<float, 2>& u) const {
    Walk& walk = sensor_.walk;
    const std::optional<DirectLight> lamp = sample_direct_light(stage_, walk, vertex_, fixture, u);
    if (!lamp) return;
    const LampLight& light = lamp->light;
    const float pt_d2 = lamp->pt_d2();
    float balance = 1;
    if (!stage_.partition) {
        const float wi_geometric = std::abs(glm::dot(vertex_.at.geometric, lamp->wi_world));
        SampledLamp sampled;
        sampled.by_sensor_walk =
            lamp->met(pdf(vertex_.bsdf, vertex_.wo(), lamp->wi), stage_.emitters[fixture]);
        sampled.by_light_walk = light_walks(fixture, false) * light.pdf_area * light.pdf_direction *
                                wi_geometric / pt_d2;
        sampled.pdf_to_sensor = pdf(vertex_.bsdf, lamp->wi, vertex_.wo());
        sampled.passes = lamp->way.probability;
        sampled.by_sheet = sheet_density_here(fixture);
        sampled.asked = place.asked.lamp(fixture);
        sampled.focuses = focuses(vertex_.bsdf);
        balance = balance_of_sampled_lamp(sums(fixture), sampled);
    }
    by_fixture_[fixture] += walk.light.throughput * lamp->f * lamp->way.transmittance *
                            (light.luminance * std::abs(lamp->wi.z) * light.cos_lamp /
                             (pt_d2 * place.asks.lamp(fixture) * balance));
}

void SensorVisit::add_sheet_light(size_t fixture,
                                  const SensorPlace& place,
                                  const SheetNumbers& u) const {
    Walk& walk = sensor_.walk;
    const Point& here = vertex_.at.position;
    const std::optional<SheetPoint> y =
        sample_sheet_point(stage_, fixture, here, u.point, walk.light.hero);
    if (!y) return;
    const Direction& wi_world = y->from_z.direction;
    const Direction wi = vertex_.frame().to_local(wi_world);
    if (!sides_agree(vertex_, wi_world, wi.z)) return;
    const Spectrum f = eval(vertex_.bsdf, vertex_.wo(), wi, Carrying::kRadiance);
    if (f.is_black()) return;
    const std::optional<SheetLight> by_sheet =
        sample_sheet_light(stage_, walk, vertex_, fixture, *y, u.lamp);
    if (!by_sheet) return;
    const float per_area =
        std::abs(glm::dot(vertex_.at.geometric, wi_world)) / square(y->from_z.distance);
    SampledSheet sheet;
    sheet.by_sensor_walk = by_sheet->met;
    sheet.pdf_to_cloth = pdf(vertex_.bsdf, vertex_.wo(), wi);
    sheet.by_light_walk = light_walks(fixture, false) * by_sheet->walked * per_area;
    sheet.pdf_to_sensor = pdf(vertex_.bsdf, wi, vertex_.wo());
    sheet.asked = place.asked.sheet(fixture);
    sheet.focuses = focuses(vertex_.bsdf);
    if (place.receiver_cell >= 0) {
        sheet.by_connection =
            light_walks(fixture, false) * by_sheet->reached *
            stage_.connection_density(place.receiver_cell, light_cell_of(stage_, y->vertex)) *
            stage_.stored_flux(fixture);
    }
    by_fixture_[fixture] += walk.light.throughput * f * by_sheet->light *
                            (std::abs(wi.z) / (place.asks.sheet(fixture) *
                                               balance_of_sampled_sheet(sums(fixture), sheet)));
}

Spectrum SensorVisit::merged(const Photon& photon) const {
    if (photon.material != vertex_.at.material) return Spectrum(0.0F);
    const Direction direction = photon.direction.unpacked();
    const float cos_geometric = std::abs(glm::dot(vertex_.at.geometric, direction));
    const Direction wi = vertex_.frame().to_local(direction);
    if (!sides_agree(vertex_, direction, wi.z) || cos_geometric < 1e-3F) return Spectrum(0.0F);
    const Spectrum f = eval(vertex_.bsdf, vertex_.wo(), wi, Carrying::kRadiance);
    if (f.is_black()) return f;
    float balance = 1;
    if (!stage_.partition) {
        const float connected = sensor_.walk.history.only_smooth() ? photon.connected : 0.0F;
        balance = balance_of_merged_photon(sums(static_cast<size_t>(photon.fixture)),
                                           {.connected = connected,
                                            .reversed = photon.reversed,
                                            .shiny = photon.shiny,
                                            .pdf_to_lamp = pdf(vertex_.bsdf, vertex_.wo(), wi),
                                            .pdf_to_sensor = pdf(vertex_.bsdf, wi, vertex_.wo()),
                                            .area = stage_.merge_area_at(vertex_.at.position)});
    }
    return f * (std::abs(wi.z) / (cos_geometric * balance));
}

bool SensorVisit::gathers_photons() const {
    const PathHistory& history = sensor_.walk.history;
    return stage_.photons && sensor_.from_lens() && history.has_events() &&
           (stage_.partition ? history.only_smooth() : history.only_shiny()) &&
           may_merge(stage_, vertex_);
}

void SensorVisit::add_merged_photons() const {
    if (!gathers_photons()) return;
    const Walk& walk = sensor_.walk;
    const bool wide = stage_.merges_wide(vertex_.at.position);
    const PhotonMap& photons = wide ? *stage_.wide_photons : *stage_.photons;
    const float radius = photons.radius();
    const auto visit = [&](const Photon& photon, float distance2) {
        const float off_plane =
            std::abs(glm::dot(photon.position - vertex_.at.position, vertex_.at.geometric));
        // A photon beyond an edge or around a corner does not count.
        const Vec3 normal(photon.normal[0], photon.normal[1], photon.normal[2]);
        const float cos_normals = glm::dot(normal, vertex_.at.geometric) / 127;
        if (off_plane > 0.5F * radius || cos_normals < 0.8F) return;
        // Kernel of Epanechnikov 1969.
        const float kernel = 2.0F * (1.0F - distance2 / square(radius)) / (kPiF * square(radius));
        by_fixture_[static_cast<size_t>(photon.fixture)] +=
            walk.light.throughput * photon.flux.unpacked() * merged(photon) * kernel;
    };
    photons.gather(vertex_.at.position, visit);
}

float SensorVisit::balance_of(const StoredVertex& y,
                              const InnerConnection& inner,
                              const SensorPlace& place) const {
    const auto fixture = static_cast<size_t>(y.fixture);
    const bool z_is_shiny = is_shiny(vertex_.bsdf);
    ConnectedVertex c;
    c.density =
        stage_.connection_density(place.receiver_cell, y.light_cell) * stage_.stored_flux(fixture);
    c.joinable = y.joinable;
    c.reversed = y.reversed;
    c.shiny = z_is_shiny ? y.shiny : 0.0F;
    c.by_sheet = y.by_sheet * place.asked.sheet(fixture);
    c.z_to_y = inner.z_to_y;
    c.y_to_z = inner.y_to_z;
    c.y_to_lamp = inner.y_to_lamp;
    if (stage_.merge_area > 0 && y.behind_focus) {
        if (z_is_shiny) c.merging_at_y = stage_.merge_area_at(y.at.position);
        const bool merges_here = merging_may_count(sensor_.walk.history, Carrying::kRadiance);
        if (merges_here) c.merging_at_z = stage_.merge_area_at(vertex_.at.position);
    }
    c.passes = inner.passes;
    return balance_of_connected_vertex(sums(fixture), c);
}

void SensorVisit::add_connected_light(const SensorPlace& place,
                                      const SensorNumbers& numbers) const {
    if (place.receiver_cell < 0 || !stage_.stored) return;
    Walk& walk = sensor_.walk;
    const auto u = numbers.connection();
    float within = 0;
    const ConnectionTable& table = *stage_.connections;
    const int light_cell = table.sample(place.receiver_cell, u[0], within);
    const std::span<const StoredVertex> stored = stage_.stored->in_cell(light_cell);
    if (stored.empty()) return;
    const auto count = static_cast<float>(stored.size());
    const size_t drawn = std::min(stored.size() - 1, static_cast<size_t>(u[1] * count));
    const StoredVertex& y = stored[drawn];
    if (walk.edge + y.edge > stage_.max_bounces) return;
    std::optional<InnerConnection> inner = prepare_connection(stage_, walk, vertex_, y);
    if (!inner || !pass_connection(stage_, walk, vertex_, *inner)) return;
    const float probability = table.probability(place.receiver_cell, light_cell);
    by_fixture_[static_cast<size_t>(y.fixture)] +=
        walk.light.throughput * inner->light *
        (count / (probability * balance_of(y, *inner, place)));
}

void SensorVisit::add_light(const SensorPlace& place, SensorNumbers& numbers) const {
    const int edge = sensor_.walk.edge;
    const Asked& asks = place.asks;
    const auto u = asks.lamps ? numbers.ask(edge) : std::array<float, 2>{};
    SystematicChoice lamp_choice(u[0]);
    for (size_t f = 0; f < stage_.emitters.size(); ++f) {
        if (!lamp_choice.takes(asks.lamp(f))) continue;
        if (!stage_.emitters[f].may_reach(vertex_.at.position)) continue;
        add_direct_light(f, place, numbers.lamp(edge, f));
    }
    // A path by way of cloth has one more bounce.
    const bool samples_sheets = stage_.sheets && edge < stage_.max_bounces;
    SystematicChoice sheet_choice(u[1]);
    for (size_t f = 0; samples_sheets && f < stage_.emitters.size(); ++f) {
        if (!stage_.sheets->lit_by(f)) continue;
        if (!sheet_choice.takes(asks.sheet(f))) continue;
        add_sheet_light(f, place, numbers.sheet(edge, f));
    }
    add_merged_photons();
    add_connected_light(place, numbers);
}

}  // namespace dapple
