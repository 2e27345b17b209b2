// Tungsten lamps on a dimmer. Our law (E24) has the IES handbook's exponents for colour temperature
// and power; the light follows from Planck's law.
#include "spectrum/tungsten.h"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "fixtures/emitter.h"
#include "fixtures/source_groups.h"
#include "published/published.h"
#include "spectrum/chromaticity.h"
#include "spectrum/observer.h"

namespace tungsten_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Dimmed tungsten");

const std::string kHandbook = "IES Lighting Handbook, 10th ed., CCT ~ V^0.42 (from memory)";
const std::string kPlanck = "V^1.6 and Planck's law, recomputed";

constexpr double kFull = 3200;  // K

double mired(double kelvin) {
    return 1e6 / kelvin;
}

std::string volts(double share) {
    return figure(100 * share) + " % of the voltage";
}

}  // namespace

TEST_CASE("a 3200 K lamp at less voltage has the published colour temperature") {
    const struct {
        double voltage;
        const char *cct, *shift;
    } rows[] = {{0.95, "3132", "7"},
                {0.90, "3061", "14"},
                {0.80, "2914", "31"},
                {0.70, "2755", "51"},
                {0.60, "2582", "75"},
                {0.50, "2392", "106"},
                {0.30, "1930", "206"}};
    for (const auto& row : rows) {
        const double cct_k = dimmed_tungsten_cct(kFull, row.voltage);
        kSubject.exact("CCT at " + volts(row.voltage), kHandbook, "K", row.cct, cct_k);
        kSubject.exact("shift at " + volts(row.voltage),
                       kHandbook,
                       "mired",
                       row.shift,
                       mired(cct_k) - mired(kFull));
    }
}

TEST_CASE("a 3200 K lamp at less voltage sends the published share of its light") {
    const struct {
        double voltage;
        const char* share;
    } rows[] = {{0.80, "0.467"}, {0.70, "0.286"}, {0.60, "0.157"}, {0.50, "0.074"}};
    for (const auto& row : rows) {
        kSubject.exact("light at " + volts(row.voltage),
                       kPlanck,
                       "",
                       row.share,
                       dimmed_tungsten_light(kFull, row.voltage));
    }
}

TEST_CASE("down to 70 % of the voltage the light is that of the handbook's power law") {
    const struct {
        double voltage;
        const char* share;
        double off;  // V^3.4 less our law, computed outside this program, and half a digit
    } rows[] = {{0.95, "0.840", 0.0053},
                {0.90, "0.699", 0.0060},
                {0.80, "0.468", 0.0014},
                {0.70, "0.297", 0.0115}};
    for (const auto& row : rows) {
        kSubject.exact("light at " + volts(row.voltage) + ", by V^3.4",
                       "IES Lighting Handbook, 10th ed. (from memory)",
                       "",
                       row.share,
                       dimmed_tungsten_light(kFull, row.voltage),
                       {row.off, "V^3.4 is good to 4 % here, and sends 29 % too much at 50 %"});
    }
}

TEST_CASE("a 3200 K lamp dimmed by whole stops has the published colour temperature") {
    const struct {
        int stops;
        const char *voltage, *cct;
        double off_voltage, off_cct;  // the same for voltage and CCT
    } rows[] = {{1, "0.815", "2937", 0.0006, 0.6},
                {2, "0.665", "2696", 0.011, 18},
                {3, "0.542", "2475", 0.026, 48}};
    const std::string source = "V^3.4 and V^0.42, recomputed";
    const std::string reason = "V^3.4 has too much light at low voltage, so it needs less voltage";
    for (const auto& row : rows) {
        const DimmedTungsten lamp = dim_tungsten(kFull, std::exp2(-row.stops));
        const std::string down = std::to_string(row.stops) + " stops down";
        kSubject.exact("voltage " + down,
                       source,
                       "of full",
                       row.voltage,
                       lamp.relative_voltage,
                       {row.off_voltage, reason});
        kSubject.exact("CCT " + down, source, "K", row.cct, lamp.cct_k, {row.off_cct, reason});
    }
}

TEST_CASE("a dimmed tungsten fixture has the lumens of its dimmer and the warmer light") {
    // E24 solved outside this program, to a hundredth of a kelvin.
    const struct {
        int stops;
        const char *cct, *lumens;
    } rows[] = {{1, "2937.05", "5500"}, {2, "2713.61", "2750"}, {3, "2521.38", "1375"}};
    for (const auto& row : rows) {
        Fixture f;
        f.source = SourceKind::kTungsten;
        f.form = FixtureForm::kBare;
        f.cct_k = static_cast<float>(kFull);
        f.output_value = 11000;
        f.dimmer = static_cast<float>(std::exp2(-row.stops));
        const Curve light = make_source_groups(f)[0].spectrum * Emitter(f).lumens();
        const std::string down = ", fixture " + std::to_string(row.stops) + " stops down";
        kSubject.exact("CCT" + down, kPlanck, "K", row.cct, cct_duv_of(integrate_xyz(light)).cct_k);
        kSubject.exact("11000 lm" + down, "definition", "lm", row.lumens, luminous_flux(light));
    }
}

}  // namespace tungsten_test
