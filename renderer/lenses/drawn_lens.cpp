#include "lenses/drawn_lens.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "lenses/lens_wavelengths.h"
#include "lenses/trace_lens.h"
#include "math/warps.h"

namespace dapple {

namespace {

constexpr double kMiddleWavelength = 550;  // nm
constexpr double kBluest = 450;            // nm, for the spread of colours
constexpr double kReddest = 640;           // nm
constexpr double kTogether_px = 0.3;       // a spread of colours below this is not drawn
constexpr int kPilotRadii = 33;            // over half the frame's diagonal
constexpr int kPilotAcross = 32;
constexpr int kAxisAcross = 128;
constexpr int kMostWidened = 6;
constexpr double kDiscSpare = 1.1;

DVec2 turned(const DVec2& v, double c, double s) {
    return {c * v.x - s * v.y, s * v.x + c * v.y};
}

// What the surfaces pass, at the eight bands.
class PassedLight {
  public:
    explicit PassedLight(const RealLens& lens) : lens_(lens) {}
    void meet(size_t surface, const SurfaceMeeting& meeting) {
        passed_ *= Spectrum(1.0F) - lens_.reflectance(surface).at(meeting.cos_rarer);
    }
    Spectrum over_axis() const {
        Spectrum result;
        for (int j = 0; j < kSpectrumSize; ++j) {
            result[j] = passed_[j] / lens_.axis_transmittance()[j];
        }
        return result;
    }

  private:
    const RealLens& lens_;
    Spectrum passed_{1.0F};
};

// One surface of the image's route. False if the ray ends there.
bool cross(
    const RealLens& lens, size_t k, double nm, bool forwards, LensRay& ray, PassedLight& light) {
    const LensSurface& s = lens.glass().surfaces[k];
    SurfaceMeeting meeting;
    if (!meet_surface(s, nm, forwards, ray, meeting)) return false;
    if (s.is_stop) return lens.stop().passes(ray.position.x, ray.position.y);
    const double height2 = ray.position.x * ray.position.x + ray.position.y * ray.position.y;
    if (height2 > s.free_radius * s.free_radius || meeting.cos_rarer < 0) return false;
    light.meet(k, meeting);
    return refract_at(s, nm, forwards, meeting, ray);
}

}  // namespace

std::optional<DrawnLens::Outwards> DrawnLens::trace_out(const DVec2& film,
                                                        const DVec2& on_exit,
                                                        double nm) const {
    const LensVec from(film, lens_.film_z());
    LensRay ray{from, glm::normalize(LensVec(on_exit, lens_.exit_z()) - from)};
    if (ray.direction.z > 0) ray.direction = -ray.direction;
    Outwards out;
    out.cos_film = -ray.direction.z;
    PassedLight light(lens_);
    for (size_t k = lens_.glass().surfaces.size(); k-- > 0;) {
        if (!cross(lens_, k, nm, false, ray, light)) return std::nullopt;
    }
    if (!(ray.direction.z < 0)) return std::nullopt;
    const double t = (lens_.entrance_depth() - ray.position.z) / ray.direction.z;
    const LensVec at = ray.position + t * ray.direction;
    out.on_pupil = DVec2(at.x, at.y);
    out.direction = LensVec(ray.direction.x, ray.direction.y, -ray.direction.z);
    out.passed = light.over_axis();
    return out;
}

DrawnLens::DrawnLens(const Camera& camera)
    : lens_(camera), half_film_(0.5e3 * DVec2(camera.sensor)) {
    pixel_width_ = 2 * half_film_.x / camera.width;
    pixel_area_ = pixel_width_ * (2 * half_film_.y / camera.height);
    widest_ = glm::length(half_film_);
    std::vector<Pilot> pilots;
    for (int k = 0; k < kPilotRadii; ++k) {
        pilots.push_back(look_from(widest_ * k / (kPilotRadii - 1)));
    }
    for (size_t k = 0; k + 1 < pilots.size(); ++k) {
        const Box& a = pilots[k].box;
        const Box& b = pilots[k + 1].box;
        boxes_.push_back({glm::min(a.low, b.low), glm::max(a.high, b.high)});
    }
    find_disc(pilots);
    axis_light_ = find_axis_light();
    splits_colours_ =
        lens_.glass().is_dispersive() && spread_of_colours() > kTogether_px * pixel_width_;
}

DrawnLens::Pilot DrawnLens::look_over(double radius, const Box& over) const {
    Pilot pilot;
    pilot.box = {over.high, over.low};
    pilot.low = 1e9;
    pilot.high = -1e9;
    const DVec2 cell = (over.high - over.low) / static_cast<double>(kPilotAcross);
    double tangents = 0;
    int through = 0;
    for (int i = 0; i < kPilotAcross * kPilotAcross; ++i) {
        const DVec2 at = over.low + cell * (DVec2(i % kPilotAcross, i / kPilotAcross) + DVec2(0.5));
        const auto out = trace_out(DVec2(radius, 0), at, kMiddleWavelength);
        if (!out) continue;
        ++through;
        pilot.box.low = glm::min(pilot.box.low, at - 1.5 * cell);
        pilot.box.high = glm::max(pilot.box.high, at + 1.5 * cell);
        pilot.low = std::min(pilot.low, out->on_pupil.x);
        pilot.high = std::max(pilot.high, out->on_pupil.x);
        pilot.half_y = std::max(pilot.half_y, std::abs(out->on_pupil.y));
        tangents += out->direction.x / out->direction.z;
    }
    pilot.is_dark = through == 0;
    if (through > 0) pilot.tangent = tangents / through;
    return pilot;
}

DrawnLens::Pilot DrawnLens::look_from(double radius) const {
    const DVec2 usual(1.3 * lens_.exit_radius());
    Box box{-usual, usual};
    Pilot pilot = look_over(radius, box);
    // The light may go beyond the first-order pupil, or wholly past it.
    for (int k = 0; k < kMostWidened; ++k) {
        const bool is_inside = !pilot.is_dark && pilot.box.low.x > box.low.x &&
                               pilot.box.high.x < box.high.x && pilot.box.high.y < box.high.y;
        if (is_inside) break;
        box = {1.5 * box.low, 1.5 * box.high};
        pilot = look_over(radius, box);
    }
    return pilot.is_dark ? Pilot{{-usual, usual}} : look_over(radius, pilot.box);
}

void DrawnLens::find_disc(const std::vector<Pilot>& pilots) {
    disc_radius_ = 0;
    std::vector<DVec2> middles;  // (tangent, middle)
    for (const Pilot& p : pilots) {
        if (p.is_dark) continue;
        middles.emplace_back(std::abs(p.tangent),
                             0.5 * (p.low + p.high) * (p.tangent < 0 ? -1 : 1));
        disc_radius_ = std::max({disc_radius_, 0.5 * (p.high - p.low), p.half_y});
    }
    disc_radius_ *= kDiscSpare;
    std::sort(
        middles.begin(), middles.end(), [](const DVec2& a, const DVec2& b) { return a.x < b.x; });
    disc_middles_.assign(kPilotRadii, 0.0);
    if (middles.empty()) return;
    widest_tangent_ = std::max(middles.back().x, 1e-6);
    for (int k = 0; k < kPilotRadii; ++k) {
        const double tangent = widest_tangent_ * k / (kPilotRadii - 1);
        size_t i = 0;
        while (i + 2 < middles.size() && middles[i + 1].x < tangent) ++i;
        const DVec2& a = middles[i];
        const DVec2& b = middles[std::min(i + 1, middles.size() - 1)];
        const double t = b.x > a.x ? std::clamp((tangent - a.x) / (b.x - a.x), 0.0, 1.0) : 0.0;
        disc_middles_[static_cast<size_t>(k)] = std::lerp(a.y, b.y, t);
    }
}

// How far blue and red light of one scene ray arrive apart, at most: over rays of the whole frame.
double DrawnLens::spread_of_colours() const {
    double most = 0;
    for (int k = 0; k <= 8; ++k) {
        const double radius = widest_ * k / 8;
        const Box& box = box_at(radius);
        for (int i = 0; i < 9; ++i) {
            const DVec2 at =
                box.low + (box.high - box.low) * (DVec2(i % 3, i / 3) + DVec2(0.5)) / 3.0;
            const auto out = trace_out(DVec2(radius, 0), at, kMiddleWavelength);
            if (!out) continue;
            const LensVec far = LensVec(out->on_pupil, 0) + 5e3 / out->direction.z * out->direction;
            const auto blue = project(far, out->on_pupil, kBluest);
            const auto red = project(far, out->on_pupil, kReddest);
            if (blue && red) most = std::max(most, glm::length(blue->place - red->place));
        }
    }
    return most;
}

const DrawnLens::Box& DrawnLens::box_at(double radius) const {
    const double x = radius / widest_ * (kPilotRadii - 1);
    return boxes_[std::min(static_cast<size_t>(x), boxes_.size() - 1)];
}

double DrawnLens::over_box(const Outwards& out, const Box& box) const {
    const double away = lens_.film_z() - lens_.exit_z();
    const double cos2 = out.cos_film * out.cos_film;
    return box.area() * cos2 * cos2 / (away * away);
}

double DrawnLens::find_axis_light() const {
    const Box& box = box_at(0);
    double sum = 0;
    for (int i = 0; i < kAxisAcross * kAxisAcross; ++i) {
        const DVec2 cell(i % kAxisAcross, i / kAxisAcross);
        const DVec2 at =
            box.low + (box.high - box.low) * (cell + DVec2(0.5)) / static_cast<double>(kAxisAcross);
        const auto out = trace_out(DVec2(0), at, kMiddleWavelength);
        if (out) sum += over_box(*out, box);
    }
    return sum > 0 ? sum / (kAxisAcross * kAxisAcross) : 1;
}

DrawnLens::SceneRay DrawnLens::scene_ray(const Outwards& out, double film_radius) const {
    SceneRay ray;
    ray.on_pupil = out.on_pupil;
    ray.direction = out.direction;
    ray.cosine = out.direction.z;
    ray.passed = out.passed;
    const double from_film = over_box(out, box_at(film_radius));
    ray.density = ray.cosine * kPi * disc_radius_ * disc_radius_ / (pixel_area_ * from_film);
    ray.value = from_film / axis_light_;
    ray.response = ray.value * ray.density;
    return ray;
}

std::optional<DrawnLens::SceneRay> DrawnLens::sample(const DVec2& place,
                                                     double u,
                                                     double v,
                                                     double nm) const {
    // The film is upside down and the wrong way round.
    const DVec2 film(half_film_.x - place.x, place.y - half_film_.y);
    const double radius = glm::length(film);
    const DVec2 along = radius > 0 ? film / radius : DVec2(1, 0);
    const Box& box = box_at(radius);
    const DVec2 on_exit = box.low + (box.high - box.low) * DVec2(u, v);
    const auto out = trace_out(film, turned(on_exit, along.x, along.y), nm);
    if (!out) return std::nullopt;
    return scene_ray(*out, radius);
}

DVec2 DrawnLens::point_on_pupil(const LensVec& scene, double u, double v) const {
    const DVec2 slope(scene.x / scene.z, scene.y / scene.z);
    const double tangent = glm::length(slope);
    const double x = std::min(tangent / widest_tangent_, 1.0) * (kPilotRadii - 1);
    const auto i = std::min(static_cast<size_t>(x), disc_middles_.size() - 2);
    const double middle =
        std::lerp(disc_middles_[i], disc_middles_[i + 1], x - static_cast<double>(i));
    const DVec2 along = tangent > 0 ? slope / tangent : DVec2(1, 0);
    const Vec2 d = sample_disk(static_cast<float>(u), static_cast<float>(v));
    return middle * along + disc_radius_ * DVec2(d);
}

std::optional<DrawnLens::Arrival> DrawnLens::project(const LensVec& scene,
                                                     const DVec2& on_pupil,
                                                     double nm) const {
    const LensVec from(scene.x, scene.y, lens_.entrance_depth() - scene.z);
    const LensVec way = LensVec(on_pupil, lens_.entrance_depth()) - from;
    if (!(way.z > 0)) return std::nullopt;
    LensRay ray{from, glm::normalize(way)};
    Outwards out;
    out.on_pupil = on_pupil;
    out.direction = LensVec(-ray.direction.x, -ray.direction.y, ray.direction.z);
    PassedLight light(lens_);
    for (size_t k = 0; k < lens_.glass().surfaces.size(); ++k) {
        if (!cross(lens_, k, nm, true, ray, light)) return std::nullopt;
    }
    if (!(ray.direction.z > 0)) return std::nullopt;
    const LensVec at =
        ray.position + (lens_.film_z() - ray.position.z) / ray.direction.z * ray.direction;
    out.cos_film = ray.direction.z;
    out.passed = light.over_axis();
    const double radius = std::hypot(at.x, at.y);
    if (radius > widest_) return std::nullopt;
    // Light that sample() cannot find would be counted twice by the weights.
    const DVec2 on_exit = DVec2(at.x, at.y) + (lens_.exit_z() - at.z) / ray.direction.z *
                                                  DVec2(ray.direction.x, ray.direction.y);
    const DVec2 along = radius > 0 ? DVec2(at.x, at.y) / radius : DVec2(1, 0);
    const DVec2 in_box = turned(on_exit, along.x, -along.y);
    const Box& box = box_at(radius);
    const bool is_found = glm::all(glm::greaterThanEqual(in_box, box.low)) &&
                          glm::all(glm::lessThanEqual(in_box, box.high));
    Arrival arrival;
    arrival.place = DVec2(half_film_.x - at.x, half_film_.y + at.y);
    arrival.ray = scene_ray(out, radius);
    if (!is_found) arrival.ray.density = 0;
    return arrival;
}

}  // namespace dapple
