#include "judge/ratios.h"

#include <algorithm>
#include <cmath>

#include "develop/pair_meters.h"
#include "judge/fixture_light.h"
#include "judge/region_cut.h"

namespace dapple {

namespace {

const std::string kSidesName = "lit : shadow side";

// Light of some fixtures at one place, any unit.
struct Light {
    double value = 0;
    std::optional<double> error;
    int passes = 0;  // Measure::passes
};

Measure divide(const Light& above, const Light& below) {
    if (!(below.value > 0)) return Measure::unknown("no light to divide by");
    if (!above.error || !below.error) return Measure::unknown(kNotKnownYet);
    const double ratio = above.value / below.value;
    const double a = above.value > 0 ? *above.error / above.value : 0;
    const double b = *below.error / below.value;
    return Measure::known(
        ratio, ratio * std::hypot(a, b), fewer_passes(above.passes, below.passes));
}

std::vector<int> joined(const LightRole& a, const LightRole& b) {
    std::vector<int> all = a.fixtures;
    all.insert(all.end(), b.fixtures.begin(), b.fixtures.end());
    return all;
}

// Weight 1 for each light group of the fixtures; of no fixtures: of all.
std::vector<double> weights_of(const FilmRecord& record, const std::vector<int>& fixtures) {
    std::vector<double> weights;
    for (const LightLayer& layer : record.layers) {
        const bool taken =
            fixtures.empty() ||
            std::find(fixtures.begin(), fixtures.end(), layer.fixture) != fixtures.end();
        weights.push_back(taken ? 1 : 0);
    }
    return weights;
}

// Where the light of some fixtures is taken from: a meter, or a side of the figure.
class Place {
  public:
    virtual ~Place() = default;
    virtual Light of(const std::vector<int>& fixtures) const = 0;  // empty: all light
    virtual std::string name() const = 0;
};

class AtMeter : public Place {
  public:
    AtMeter(const FilmRecord& record, const MeterRecord& meter) : record_(record), meter_(meter) {}
    Light of(const std::vector<int>& fixtures) const override {
        const std::vector<double> weights = weights_of(record_, fixtures);
        Light light{0, meter_.lux.stderr_of_sum(weights), record_.run.passes};
        for (size_t g = 0; g < weights.size(); ++g) light.value += weights[g] * meter_.lux.means[g];
        return light;
    }
    std::string name() const override { return "at \"" + meter_.meter.name + "\""; }

  private:
    const FilmRecord& record_;
    const MeterRecord& meter_;
};

// The noise of a part of the light is taken from the noise of all light, with a variance that grows
// with the light. It is the spread over the passes like that of a meter: all pixels of a pass share
// its wavelengths, so many pixels do not make up for few passes.
class OnSide : public Place {
  public:
    OnSide(const FilmRecord& record, const std::vector<int32_t>& pixels, std::string name)
        : name_(std::move(name)), record_(record), layers_(record.layers.size(), 0.0) {
        const LuminanceRow row(record.camera);
        for (const int32_t pixel : pixels) {
            const double reflectance = std::max(0.01, reflectance_at(record, pixel));
            for (size_t g = 0; g < layers_.size(); ++g) {
                const Rgb& light = record.layers[g].light[static_cast<size_t>(pixel)];
                layers_[g] += row.of(light) / reflectance / static_cast<double>(pixels.size());
            }
        }
        const Measure all = mean_luminance(cut_out(record, pixels, {}));
        if (all && all.error && *all > 0) relative_error_ = *all.error / *all;
    }
    Light of(const std::vector<int>& fixtures) const override {
        const std::vector<double> weights = weights_of(record_, fixtures);
        double part = 0;
        double all = 0;
        for (size_t g = 0; g < weights.size(); ++g) {
            part += weights[g] * layers_[g];
            all += layers_[g];
        }
        Light light{part, std::nullopt, record_.run.passes};
        if (relative_error_) light.error = *relative_error_ * std::sqrt(std::max(0.0, part * all));
        return light;
    }
    std::string name() const override { return "on the " + name_; }

  private:
    std::string name_;
    const FilmRecord& record_;
    std::vector<double> layers_;
    std::optional<double> relative_error_;
};

struct Pair {
    std::string source;  // "meters", "figure"
    const Place& lit;
    const Place& shadow;
};

void add_key_to_fill(const FilmRecord& record,
                     const KeyAndFill& lights,
                     const Pair& from,
                     std::vector<Ratio>& ratios) {
    const std::string key = names_of(record, lights.key);
    const std::string fill = names_of(record, lights.fill);
    const std::string below = (fill.empty() ? "no fill" : fill) + " alone " + from.shadow.name();
    const Light filled = from.shadow.of(lights.fill.fixtures);
    const auto ratio = [&](const std::vector<int>& above) {
        if (fill.empty()) return Measure::unknown("no fixture but the key");
        return divide(from.lit.of(above), filled);
    };
    ratios.push_back({from.source,
                      "key : fill",
                      key + " alone " + from.lit.name() + " : " + below,
                      ratio(lights.key.fixtures)});
    ratios.push_back({from.source,
                      "key + fill : fill",
                      key + " and " + fill + " " + from.lit.name() + " : " + below,
                      ratio(joined(lights.key, lights.fill))});
}

void add_sides(const Pair& from, std::vector<Ratio>& ratios) {
    ratios.push_back({from.source,
                      kSidesName,
                      "all light " + from.lit.name() + " : all light " + from.shadow.name(),
                      divide(from.lit.of({}), from.shadow.of({}))});
}

void add_meter_ratios(const FilmRecord& record,
                      const KeyAndFill& lights,
                      std::vector<Ratio>& ratios) {
    const MeterPair pair =
        pair_meters(record, metered_key(lights.key.fixtures), metered_fill(lights.fill.fixtures));
    if (pair.first < 0) return;
    const AtMeter lit(record, record.meters[static_cast<size_t>(pair.first)]);
    const AtMeter shadow(record, record.meters[static_cast<size_t>(pair.second)]);
    add_key_to_fill(record, lights, {"meters", lit, shadow}, ratios);
    if (!pair.is_one()) {
        add_sides({"meters", lit, shadow}, ratios);
        return;
    }
    ratios.push_back(
        {"meters",
         kSidesName,
         "all light " + lit.name() + " : all light at a second meter",
         Measure::unknown("needs a second meter within half a metre, at the shadow side")});
}

}  // namespace

std::vector<Ratio> measure_ratios(const FilmRecord& record, const KeyAndFill& lights) {
    std::vector<Ratio> ratios;
    if (!lights.key.fixtures.empty()) add_meter_ratios(record, lights, ratios);
    if (lights.sides.lit.empty()) {
        ratios.push_back({"figure",
                          kSidesName,
                          "all light on the lit side : all light on the shadow side",
                          Measure::unknown(lights.sides.why)});
        return ratios;
    }
    const OnSide lit(record, lights.sides.lit, "lit side");
    const OnSide shadow(record, lights.sides.shadow, "shadow side");
    add_key_to_fill(record, lights, {"figure", lit, shadow}, ratios);
    add_sides({"figure", lit, shadow}, ratios);
    return ratios;
}

}  // namespace dapple
