#include "desk/desk_film.h"

#include <algorithm>
#include <cmath>

#include "desk/json_line.h"
#include "develop/exposure.h"
#include "judge/point_reading.h"
#include "output/judge_text.h"
#include "page/light_parcel.h"
#include "transport/lens.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;

constexpr size_t kMostLight = 48U << 20U;  // bytes sent to the page
constexpr double kMidGrey = 0.18;          // of white (exposure.h)
constexpr float kOffSurface = 0.03F;       // m, of a meter that is held on a surface

Json colours_json(const std::vector<Rgb>& colours) {
    Json list = Json::array();
    for (const Rgb& c : colours) list.push_back({c.r, c.g, c.b});
    return list;
}

}  // namespace

uint64_t DeskFilm::put(uint64_t version,
                       std::shared_ptr<const FilmRecord> film,
                       std::string tables) {
    const std::lock_guard lock(mutex_);
    state_.film = std::move(film);
    state_.version = version;
    state_.tables = std::move(tables);
    return ++state_.number;
}

void DeskFilm::put_matte(std::vector<bool> matte) {
    const std::lock_guard lock(mutex_);
    state_.matte = std::move(matte);
}

DeskFilm::State DeskFilm::state() const {
    const std::lock_guard lock(mutex_);
    return state_;
}

std::string DeskFilm::light() const {
    const State now = state();
    if (!now.film) return "";
    const LightParcel parcel = make_light_parcel(*now.film, kMostLight);
    std::string json = "{\"number\":" + std::to_string(now.number) +
                       ",\"version\":" + std::to_string(now.version) + ",\"tables\":" + now.tables +
                       ",\"film\":" + parcel.json + "}";
    json.append((4 - json.size() % 4) % 4, ' ');
    std::string bytes;
    for (unsigned shift = 0; shift < 32; shift += 8) {
        bytes += static_cast<char>(json.size() >> shift & 255U);
    }
    return bytes + json + parcel.halves;
}

std::string DeskFilm::judge() const {
    const State now = state();
    if (!now.film) return "";
    const Json json = {{"version", now.version},
                       {"passes", now.film->run.passes},
                       {"width", now.film->width()},
                       {"things_width", now.film->in_frame.width},
                       {"judge", Json::parse(judge_json_text(judge_film(*now.film), *now.film))}};
    return line_of(json);
}

std::string DeskFilm::meter_at(double x, double y) const {
    const State now = state();
    if (!now.film) return "";
    const FilmRecord& film = *now.film;
    const auto place = [](double share, int size) {
        return std::clamp(static_cast<int>(share * size), 0, size - 1);
    };
    if (!std::isfinite(x) || !std::isfinite(y)) return line_of({{"why", "outside the frame"}});
    const glm::ivec2 pixel(place(x, film.width()), place(y, film.height()));
    const Ray seen = Lens(film.camera, true).sample_ray(Vec2(pixel) + Vec2(0.5F), 0.5F, 0.5F).ray;
    const auto reading = read_point(film, pixel.x, pixel.y, seen.direction);
    if (!reading) return line_of({{"why", "there is no surface to hold a meter on"}});
    const auto surface = static_cast<size_t>(reading->surface);
    const bool is_matte = surface < now.matte.size() && now.matte[surface];
    const Camera& c = film.camera;
    const double zero = is_matte ? metered_illuminance(c.f_number, c.shutter, c.iso)
                                 : kMidGrey * white_luminance(c);
    Json json = {{"version", now.version},
                 {"number", now.number},
                 {"surface", film.surfaces.at(surface)},
                 {"matte", is_matte},
                 {"position", point_json(reading->position)},
                 {"held_at", point_json(reading->position + kOffSurface * reading->normal)},
                 {"facing", point_json(reading->position + reading->normal)},
                 {"pixels", reading->pixels},
                 {"zero", std::log2(zero)},
                 {"rgb", colours_json(is_matte ? reading->illuminance : reading->light)},
                 {"error", reading->error ? Json(*reading->error) : Json(nullptr)}};
    return line_of(json);
}

}  // namespace dapple
