// Photometric files as the standards describe them, with invented numbers.
#pragma once

#include <cmath>
#include <string>
#include <vector>

#include "base/units.h"
#include "scene/written_set.h"

namespace dapple::test {

// Type C with planes of one quarter; the other three are mirrored.
inline const std::string kQuarterIes =
    "IESNA:LM-63-2002\n[TEST] 1\n[TESTLAB] none\n[ISSUEDATE] today\n[MANUFAC] nobody\n"
    "[MORE] at all\n[_OWN]key\nTILT=NONE\n"
    "1 -1 1 4 2 1 2 -0.2 -0.2 0\n1 1 25\n"
    "0 30 60 90\n0 90\n"
    "1000 800 300 0\n1000 600 200 0\n";

inline const std::string kTiltedIes =
    "IES:LM-63-2019\n[TEST] 2\nTILT=INCLUDE\n1\n7\n0 15 30 45 60 75 90\n"
    "1.0 0.99 0.97 0.94 0.92 0.90 0.88\n"
    "1 -1 1.0 5 3 1 2 0.5 0.6 0\n1.0 1.10000 400\n"
    "0 22.5 45 67.5 90\n0 45 90\n"
    "9000 8000 5000 1500 0\n9000 7500 4500 1200 0\n9000 7000 4000 1000 0\n";

inline const std::string kTypeBIes =
    "IES:LM-63-2019\n[TEST] 3\nTILT=NONE\n1 -1 1.0 3 3 2 1 0.5 0.5 0\n1.0 1.0 90\n"
    "0 45 90\n0 45 90\n900 500 0\n800 300 0\n100 0 0\n";

// A Lambertian face, I0 cosθ every 2.5°: it gives π I0 lumens.
inline std::string lambertian_ies(double peak) {
    std::string text =
        "IESNA91\n[TEST] 4\nTILT=NONE\n24 -1 1 37 1 1 1 -0.453125 -0.453125 0.000000\n1 1 8.64\n";
    for (int i = 0; i < 37; ++i) text += std::to_string(2.5 * i) + (i % 20 == 19 ? "\n" : " ");
    text += "\n0\n";
    for (int i = 0; i < 37; ++i) {
        text += std::to_string(peak * std::cos(radians_from_degrees(2.5 * i))) + "\n";
    }
    return text;
}

struct LdtOptions {
    int symmetry = 1;
    int planes = 24;
    double lumens = 2500;
    bool decimal_comma = false;
    int lamp_sets = 1;
    bool sets_by_field = false;
    std::string type = "T8";
    std::string rendering = "1A/80";
    bool direct_ratios = true;
    bool whole_set = true;  // including colour temperature, rendering and watts
};

// `per_thousand(C, gamma)` returns cd per 1000 lm; angles in degrees.
template <class F>
std::string ldt_text(const LdtOptions& o, F per_thousand) {
    std::vector<std::string> lines = {"nobody", "1", std::to_string(o.symmetry)};
    const auto number = [&](double x) {
        std::string text = std::to_string(x);
        if (o.decimal_comma) text.replace(text.find('.'), 1, ",");
        lines.push_back(text);
    };
    lines.push_back(std::to_string(o.planes));
    number(360.0 / std::max(o.planes, 1));
    lines.insert(lines.end(), {"37", "2.5", "report", "a lamp", "1", "lamp.ldt", "today"});
    lines.insert(lines.end(), {"300", "200", "50", "280", "180", "0", "0", "0", "0"});
    lines.insert(lines.end(), {"100", "100", "1.0", "0", std::to_string(o.lamp_sets)});
    const std::vector<std::string> set = {
        "1", o.type, std::to_string(o.lumens), "3000 K", o.rendering, "30"};
    const size_t fields = o.whole_set ? 6 : 3;
    if (o.sets_by_field) {
        for (size_t f = 0; f < fields; ++f) lines.insert(lines.end(), o.lamp_sets, set[f]);
    } else {
        for (int s = 0; s < o.lamp_sets; ++s) {
            for (size_t f = 0; f < fields; ++f) lines.push_back(set[f]);
        }
    }
    if (o.direct_ratios) lines.insert(lines.end(), 10, "0.5");
    for (int c = 0; c < o.planes; ++c) number(360.0 * c / o.planes);
    for (int g = 0; g < 37; ++g) number(2.5 * g);
    const int stored[] = {o.planes, 1, o.planes / 2 + 1, o.planes / 2 + 1, o.planes / 4 + 1};
    const int first = o.symmetry == 3 ? 3 * o.planes / 4 : 0;
    for (int i = 0; i < stored[o.symmetry]; ++i) {
        const double c = o.planes > 0 ? 360.0 * ((first + i) % o.planes) / o.planes : 0;
        for (int g = 0; g < 37; ++g) number(per_thousand(c, 2.5 * g));
    }
    std::string text;
    for (const std::string& line : lines) text += line + "\r\n";
    return text;
}

inline double lambertian_per_thousand(double, double gamma) {
    return 1000 / kPi * std::cos(radians_from_degrees(gamma));
}

inline const std::string kPhotometricLamp =
    "[[fixture]]\nname = \"a\"\nposition = [0, 2, 0]\naim = [0, 0, 0]\n";

// A set with one fixture, "a", that has this photometric file.
inline std::string with_file(const std::string& name, const std::string& more = "") {
    return kRoom + kCamera + kPhotometricLamp + "photometry = \"" + name + "\"\n" + more;
}

inline Fixture fixture_of(WrittenSet& set,
                          const std::string& name,
                          const std::string& text,
                          const std::string& more = "") {
    set.file(name, text);
    return set.build_clean(with_file(name, more)).fixtures[0];
}

inline std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

}  // namespace dapple::test
