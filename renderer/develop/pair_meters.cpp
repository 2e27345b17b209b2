#include "develop/pair_meters.h"

#include <algorithm>
#include <numeric>

#include "base/name_words.h"

namespace dapple {

namespace {

constexpr float kOneFaceM = 0.5F;     // between meters of one face
constexpr float kFacesCos = 0.9986F;  // 3°

using Indices = std::vector<int>;

const MeterRecord& meter_at(const FilmRecord& record, int meter) {
    return record.meters[static_cast<size_t>(meter)];
}

double light_of(const FilmRecord& record, int meter, const Indices& fixtures) {
    double light = 0;
    for (size_t g = 0; g < record.layers.size(); ++g) {
        const int fixture = record.layers[g].fixture;
        if (std::find(fixtures.begin(), fixtures.end(), fixture) == fixtures.end()) continue;
        light += meter_at(record, meter).lux.means[g];
    }
    return light;
}

// Those with one of this light's words and none of the other's.
Indices named_for(const FilmRecord& record,
                  const MeteredLight& light,
                  const MeteredLight& other,
                  const Indices& meters) {
    Indices found;
    for (const int m : meters) {
        const std::string& name = meter_at(record, m).meter.name;
        if (name_has_word(name, light.words) && !name_has_word(name, other.words)) {
            found.push_back(m);
        }
    }
    return found;
}

bool faces(const FilmRecord& record, const Meter& meter, const Indices& fixtures) {
    return std::any_of(fixtures.begin(), fixtures.end(), [&](int f) {
        if (static_cast<size_t>(f) >= record.lamp_places.size()) return false;
        const Vec3 way = record.lamp_places[static_cast<size_t>(f)].position - meter.position;
        return glm::dot(way, meter.facing) > kFacesCos * glm::length(way);
    });
}

// Those that their names or their facings make this light's; empty: none.
Indices meant_for(const FilmRecord& record,
                  const MeteredLight& light,
                  const MeteredLight& other,
                  const Indices& meters) {
    Indices found = named_for(record, light, other, meters);
    if (!found.empty()) return found;
    const Indices others = named_for(record, other, light, meters);
    for (const int m : meters) {
        const Meter& meter = meter_at(record, m).meter;
        const bool is_others = std::find(others.begin(), others.end(), m) != others.end();
        if (!is_others && faces(record, meter, light.fixtures) &&
            !faces(record, meter, other.fixtures)) {
            found.push_back(m);
        }
    }
    return found;
}

Indices without(const Indices& meters, const Indices& taken) {
    Indices rest;
    for (const int m : meters) {
        if (std::find(taken.begin(), taken.end(), m) == taken.end()) rest.push_back(m);
    }
    return rest;
}

// The meter that some fixtures light most.
int brightest(const FilmRecord& record, const Indices& meters, const Indices& fixtures) {
    int best = -1;
    for (const int m : meters) {
        if (best < 0 || light_of(record, m, fixtures) > light_of(record, best, fixtures)) best = m;
    }
    return best;
}

// The meter at the same face as `lit` that the first light lights least, and less than `lit`.
int shadow_of(const FilmRecord& record, int lit, const Indices& meters, const Indices& fixtures) {
    int best = lit;
    for (const int m : meters) {
        const float way =
            glm::distance(meter_at(record, m).meter.position, meter_at(record, lit).meter.position);
        if (way > kOneFaceM) continue;
        if (light_of(record, m, fixtures) < light_of(record, best, fixtures)) best = m;
    }
    return best;
}

Indices near(const FilmRecord& record, int meter, const Indices& meters) {
    Indices found;
    for (const int m : meters) {
        const float way = glm::distance(meter_at(record, m).meter.position,
                                        meter_at(record, meter).meter.position);
        if (way <= kOneFaceM) found.push_back(m);
    }
    return found;
}

}  // namespace

MeteredLight metered_key(std::vector<int> fixtures) {
    return {std::move(fixtures), {"key", "lit"}};
}

MeteredLight metered_fill(std::vector<int> fixtures) {
    return {std::move(fixtures), {"fill", "shadow"}};
}

MeteredLight metered_light(const FilmRecord& record, int fixture) {
    const std::string& name = record.fixtures[static_cast<size_t>(fixture)].name;
    if (name_has_word(name, {"key"})) return metered_key({fixture});
    if (name_has_word(name, {"fill"})) return metered_fill({fixture});
    return {{fixture}, {}};
}

MeterPair pair_meters(const FilmRecord& record,
                      const MeteredLight& first,
                      const MeteredLight& second,
                      const std::vector<int>& candidates) {
    const Indices firsts = meant_for(record, first, second, candidates);
    const Indices seconds = meant_for(record, second, first, candidates);
    MeterPair pair;
    const Indices rest = without(candidates, seconds);
    pair.first = brightest(record,
                           !firsts.empty() ? firsts
                           : rest.empty()  ? candidates
                                           : rest,
                           first.fixtures);
    if (pair.first < 0) return pair;
    if (!seconds.empty()) {
        const Indices close = near(record, pair.first, seconds);
        pair.second = brightest(record, close.empty() ? seconds : close, second.fixtures);
        return pair;
    }
    const Indices others = without(candidates, firsts);
    pair.second = shadow_of(record, pair.first, others, first.fixtures);
    return pair;
}

MeterPair pair_meters(const FilmRecord& record,
                      const MeteredLight& first,
                      const MeteredLight& second) {
    Indices all(record.meters.size());
    std::iota(all.begin(), all.end(), 0);
    return pair_meters(record, first, second, all);
}

}  // namespace dapple
