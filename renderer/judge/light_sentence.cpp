#include "judge/light_sentence.h"

#include <algorithm>
#include <cmath>

#include "base/name_words.h"
#include "base/units.h"
#include "judge/key_and_fill.h"
#include "judge/words.h"
#include "spectrum/tungsten.h"

namespace dapple {

namespace {

constexpr double kLeastMired = 25;
constexpr double kLeastShare = 0.1;
constexpr double kUnseenShare = 0.01;  // fixtures with less are not counted
constexpr size_t kMostNamed = 3;       // in full
constexpr size_t kMostBareNames = 2;   // of the others; more are counted
constexpr size_t kMostPassed = 2;

// What the lights fall on: the middle of the figure, else what the frame's middle shows.
std::optional<Point> find_subject(const FilmRecord& record, const Figure& figure) {
    const FirstHits& hits = record.first_hits;
    if (hits.empty()) return std::nullopt;
    std::vector<int32_t> pixels = figure.pixels;
    if (pixels.empty()) {
        const int w = record.width();
        const int h = record.height();
        pixels = find_pixels(hits, -1, glm::ivec4(w / 3, h / 3, w - w / 3, h - h / 3));
    }
    const Camera& c = record.camera;
    Vec3 sum(0);
    int count = 0;
    for (const int32_t i : pixels) {
        const float depth = hits.depth[static_cast<size_t>(i)];
        if (!std::isfinite(depth)) continue;
        const auto x = static_cast<float>(i % c.width) + 0.5F;
        const auto y = static_cast<float>(i / c.width) + 0.5F;
        const Vec2 at =
            (Vec2(x / static_cast<float>(c.width), y / static_cast<float>(c.height)) - Vec2(0.5F)) *
            c.sensor / c.focal_length;
        sum += depth * (c.frame.n + at.x * c.frame.s - at.y * c.frame.t);
        ++count;
    }
    if (count == 0) return std::nullopt;
    return c.position + sum / static_cast<float>(count);
}

// "through the ribbed jar and the corner cloth"
std::string passes_words(const std::vector<std::string>& passes) {
    std::string text;
    size_t named = 0;
    for (const std::string& name : passes) {
        if (named == kMostPassed || is_figure_name(name)) continue;
        text += named++ == 0 ? " through the " : " and the ";
        text += name;
    }
    return text;
}

struct NamedLight {
    size_t fixture = 0;
    std::string role;  // " as key", "" where its name says it
};

// The words for each fixture in turn.
class Lights {
  public:
    Lights(const FilmRecord& record, const FilmStatistics& statistics)
        : record_(record), statistics_(statistics), figure_(find_figure(record)) {
        const KeyAndFill roles = find_key_and_fill(record, figure_);
        const bool several = seen().size() > 1;
        add_role(roles.key, several ? " as key" : "");
        add_role(roles.fill, several ? " as fill" : "");
        add_others();
        if (!record.lamp_places.empty()) subject_ = find_subject(record, figure_);
    }

    std::string words() const {
        std::string text;
        for (const NamedLight& light : named_) {
            text += (text.empty() ? "" : ", ") + words_of(light);
        }
        if (named_.empty()) return text;
        const std::vector<std::string> others = others_lit();
        if (others.empty()) return text;
        if (others.size() > kMostBareNames) {
            return text + " and " + std::to_string(others.size()) + " more lights";
        }
        return text + (others.size() == 2 ? ", " + others[0] : "") + " and " + others.back();
    }

  private:
    double share(size_t fixture) const { return statistics_.fixtures[fixture].share; }
    bool is_named(size_t fixture) const {
        return std::any_of(named_.begin(), named_.end(), [&](const NamedLight& light) {
            return light.fixture == fixture;
        });
    }
    // Fixtures that give light that can be seen, the strongest first.
    std::vector<size_t> seen() const {
        std::vector<size_t> order;
        for (size_t f = 0; f < record_.fixtures.size(); ++f) {
            if (share(f) >= kUnseenShare) order.push_back(f);
        }
        std::stable_sort(
            order.begin(), order.end(), [&](size_t a, size_t b) { return share(a) > share(b); });
        return order;
    }
    std::vector<std::string> others_lit() const {
        std::vector<std::string> names;
        for (const size_t f : seen()) {
            if (!is_named(f)) names.push_back(record_.fixtures[f].name);
        }
        return names;
    }
    void add(size_t fixture, const std::string& role) {
        if (named_.size() >= kMostNamed || is_named(fixture) || !(share(fixture) > 0)) return;
        named_.push_back({fixture, role});
    }
    void add_role(const LightRole& role, const std::string& words) {
        for (const int f : role.fixtures) {
            const auto fixture = static_cast<size_t>(f);
            // A fill that was not named as one, and is hardly seen, is none.
            if (!role.by_name && share(fixture) < kUnseenShare) continue;
            add(fixture, role.by_name ? "" : words);
        }
    }
    void add_others() {
        std::vector<size_t> order;
        for (size_t f = 0; f < record_.fixtures.size(); ++f) order.push_back(f);
        std::stable_sort(
            order.begin(), order.end(), [&](size_t a, size_t b) { return share(a) > share(b); });
        for (const size_t f : order) {
            if (share(f) >= kLeastShare || (named_.empty() && share(f) > 0)) add(f, "");
        }
    }
    std::string words_of(const NamedLight& light) const {
        const Fixture& fixture = record_.fixtures[light.fixture];
        const std::string colour =
            colour_word(fixture, static_cast<double>(record_.camera.white_k));
        std::string text = (colour.empty() ? "" : colour + " ") + fixture.name + light.role;
        if (record_.lamp_places.empty()) return text;
        const LampPlace& place = record_.lamp_places[light.fixture];
        if (subject_) text += " " + side_word(record_.camera, *subject_, place.position);
        return text + passes_words(place.passes);
    }

    const FilmRecord& record_;
    const FilmStatistics& statistics_;
    Figure figure_;
    std::vector<NamedLight> named_;
    std::optional<Point> subject_;
};

// "soft contrast": the ratio on the figure, as the picture shows it; without a figure, the ratio at
// the meters.
std::string contrast_words(const FilmStatistics& statistics) {
    for (const char* from : {"figure", "meters"}) {
        for (const char* name : {"lit : shadow side", "key + fill : fill"}) {
            for (const Ratio& r : statistics.ratios) {
                if (r.from != from || r.name != name || !r.value) continue;
                const std::string word = ratio_word(r.value);
                if (word == kNotSureYet) return "";
                if (word != "reversed") return word + " contrast";
            }
        }
    }
    return "";
}

// "broken light on the back wall", of the region with the most texture.
std::string texture_words(const FilmStatistics& statistics) {
    const RegionJudgement* best = nullptr;
    for (const RegionJudgement& r : statistics.regions) {
        const Measure& texture = r.pattern.texture_stops;
        if (is_figure_name(r.name)) continue;
        if (texture && (!best || *texture > *best->pattern.texture_stops)) best = &r;
    }
    if (!best) return "";
    const std::string word = texture_word(*best->pattern.texture_stops);
    if (word != "broken" && word != "hard") return "";
    return "broken light on the " + best->name;
}

}  // namespace

std::string colour_word(const Fixture& fixture, double white_k) {
    if (fixture.gel.spectrum) return "gelled";
    if (fixture.source == SourceKind::kFlat) return "";
    auto cct = static_cast<double>(fixture.cct_k);
    const auto dimmer = static_cast<double>(fixture.dimmer);
    if (fixture.source == SourceKind::kTungsten && fixture.dimmer_warms && dimmer > 0) {
        cct = dim_tungsten(cct, std::min(dimmer, 1.0)).cct_k;
    }
    const double mired = 1e6 / cct + fixture.gel.shift_mired - 1e6 / white_k;
    if (mired >= kLeastMired) return "warm";
    return mired <= -kLeastMired ? "cool" : "";
}

std::string side_word(const Camera& camera, const Point& subject, const Point& lamp) {
    const Vec3 way = lamp - subject;
    const float right = glm::dot(way, camera.frame.s);
    const float nearer = -glm::dot(way, camera.frame.n);
    const float up = glm::dot(way, camera.frame.t);
    if (std::abs(up) > 1.75F * std::hypot(right, nearer)) {  // 60°
        return up > 0 ? "from above" : "from below";
    }
    const double angle =
        std::atan2(static_cast<double>(std::abs(right)), static_cast<double>(nearer));
    const std::string side = right < 0 ? "camera left" : "camera right";
    if (angle < kPi / 15) return "from the front";
    if (angle < 2 * kPi / 3) return "from " + side;
    return angle < 14 * kPi / 15 ? "from behind on " + side : "from behind";
}

std::string light_sentence(const FilmRecord& record, const FilmStatistics& statistics) {
    std::string text = Lights(record, statistics).words();
    if (text.empty()) return "No light.";
    for (const std::string& words : {contrast_words(statistics), texture_words(statistics)}) {
        if (!words.empty()) text += "; " + words;
    }
    const char first = text.front();
    if (first >= 'a' && first <= 'z') text.front() = static_cast<char>(first - 'a' + 'A');
    return text + ".";
}

}  // namespace dapple
