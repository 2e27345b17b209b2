#include "base/written_number.h"

#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <span>
#include <utility>

namespace dapple {

struct WrittenUnit {
    std::string_view name;  // in lower case
    double factor;          // to the quantity's own unit
};

namespace {

constexpr double kFoot = 0.3048;  // m, exact since 1959
constexpr double kInch = 0.0254;

constexpr WrittenUnit kMetres[] = {{"metres", 1},
                                   {"meters", 1},
                                   {"metre", 1},
                                   {"meter", 1},
                                   {"feet", kFoot},
                                   {"foot", kFoot},
                                   {"inches", kInch},
                                   {"inch", kInch},
                                   {"mm", 1e-3},
                                   {"cm", 1e-2},
                                   {"ft", kFoot},
                                   {"in", kInch},
                                   {"m", 1},
                                   {"'", kFoot},
                                   {"\"", kInch}};
constexpr WrittenUnit kDegrees[] = {{"degrees", 1}, {"degree", 1}, {"deg", 1}, {"\xc2\xb0", 1}};
constexpr WrittenUnit kSeconds[] = {
    {"seconds", 1}, {"second", 1}, {"sec", 1}, {"ms", 1e-3}, {"min", 60}, {"s", 1}, {"\"", 1}};
constexpr WrittenUnit kShares[] = {{"percent", 0.01}, {"per cent", 0.01}, {"%", 0.01}};
constexpr WrittenUnit kKelvins[] = {{"kelvin", 1}, {"k", 1}};
constexpr WrittenUnit kLumens[] = {{"lumens", 1}, {"lumen", 1}, {"lm", 1}};
constexpr WrittenUnit kCandelas[] = {{"candela", 1}, {"cd", 1}};
constexpr WrittenUnit kLuxes[] = {{"lux", 1}, {"lx", 1}};
constexpr WrittenUnit kLuminances[] = {{"cd/m2", 1}, {"cd/m\xc2\xb2", 1}, {"nits", 1}, {"nit", 1}};
constexpr WrittenUnit kWatts[] = {{"watts", 1}, {"watt", 1}, {"kw", 1000}, {"w", 1}};
constexpr WrittenUnit kVolts[] = {{"volts", 1}, {"volt", 1}, {"v", 1}};
constexpr WrittenUnit kAmperes[] = {
    {"amperes", 1}, {"ampere", 1}, {"amps", 1}, {"amp", 1}, {"a", 1}};
constexpr WrittenUnit kStops[] = {{"stops", 1}, {"stop", 1}};
constexpr WrittenUnit kMireds[] = {{"mireds", 1}, {"mired", 1}};

}  // namespace

struct Quantity {
    std::span<const WrittenUnit> units;
    double own_unit = 1;      // of the key, in the quantity's own unit: 1e-3 for millimetres
    std::string_view before;  // what may stand before the number
    std::string_view example;
};

namespace {

constexpr Quantity kPlainNumber{{}, 1, "", "a number without quotes"};
constexpr Quantity kLength{kMetres, 1, "", "1.2, \"1.2 m\", \"80 cm\" or \"6 ft 2 in\""};
constexpr Quantity kLengthMm{kMetres, 1e-3, "", "30, \"30 mm\", \"3 cm\" or \"1 1/4 in\""};
constexpr Quantity kFocalLength{kMetres, 1e-3, "", "a length in mm, such as 85 or \"85 mm\""};
constexpr Quantity kAngle{kDegrees, 1, "", "20 or \"20 deg\""};
constexpr Quantity kTime{kSeconds, 1, "", "\"1/60\", 0.5 or \"2 s\""};
constexpr Quantity kFNumber{{}, 1, "f", "4 or \"f/4\""};
constexpr Quantity kIso{{}, 1, "iso", "800 or \"ISO 800\""};
constexpr Quantity kShare{kShares, 1, "", "0.5, \"50%\" or \"-1 stop\""};
constexpr Quantity kTemperature{kKelvins, 1, "", "5600 or \"5600 K\""};
constexpr Quantity kFlux{kLumens, 1, "", "900 or \"900 lm\""};
constexpr Quantity kIntensity{kCandelas, 1, "", "12000 or \"12000 cd\""};
constexpr Quantity kIlluminance{kLuxes, 1, "", "1800 or \"1800 lx\""};
constexpr Quantity kLuminance{kLuminances, 1, "", "15 or \"15 cd/m2\""};
constexpr Quantity kPower{kWatts, 1, "", "650 or \"650 W\""};
constexpr Quantity kVoltage{kVolts, 1, "", "230 or \"230 V\""};
constexpr Quantity kCurrent{kAmperes, 1, "", "16 or \"16 A\""};
constexpr Quantity kExposure{kStops, 1, "", "0.5 or \"1/2 stop\""};
constexpr Quantity kShift{kMireds, 1, "", "-35 or \"-35 mired\""};

constexpr std::pair<std::string_view, const Quantity*> kKeys[] = {
    {"position", &kLength},     {"aim", &kLength},        {"facing", &kLength},
    {"mains", &kLength},        {"f_number", &kFNumber},  {"iso", &kIso},
    {"dimmer", &kShare},        {"focus", &kShare},       {"reflectance", &kShare},
    {"transmission", &kShare},  {"direct", &kShare},      {"level", &kShare},
    {"gloss", &kShare},         {"coat", &kShare},        {"roughness", &kShare},
    {"skin", &kShare},          {"volts", &kVoltage},     {"stops", &kExposure},
    {"loss_stops", &kExposure}, {"value", &kIlluminance}, {"focal_length_mm", &kFocalLength}};
// Longer ends first.
constexpr std::pair<std::string_view, const Quantity*> kKeyEnds[] = {{"_cd_m2", &kLuminance},
                                                                     {"_mired", &kShift},
                                                                     {"_deg", &kAngle},
                                                                     {"_mm", &kLengthMm},
                                                                     {"_lm", &kFlux},
                                                                     {"_lx", &kIlluminance},
                                                                     {"_cd", &kIntensity},
                                                                     {"_m", &kLength},
                                                                     {"_s", &kTime},
                                                                     {"_k", &kTemperature},
                                                                     {"_w", &kPower},
                                                                     {"_a", &kCurrent}};

constexpr std::pair<std::string_view, std::string_view> kPlainLetters[] = {
    {"\xe2\x80\xb2", "'"},   // prime
    {"\xe2\x80\xb3", "\""},  // double prime
    {"\xe2\x80\x99", "'"},   // curly quotes
    {"\xe2\x80\x9d", "\""},
    {"''", "\""},
    {"\xe2\x88\x92", "-"},  // minus
    {"\xc2\xa0", " "},      // spaces that do not break
    {"\xe2\x80\xaf", " "},
    {"\xe2\x81\x84", "/"},  // fraction slash
    {"\xc2\xbc", " 1/4"},
    {"\xc2\xbd", " 1/2"},
    {"\xc2\xbe", " 3/4"}};

// In lower case, with plain letters for typographic ones.
std::string plain_text(std::string_view text) {
    std::string plain;
    for (size_t i = 0; i < text.size();) {
        std::string_view letter = text.substr(i, 1);
        size_t length = 1;
        for (const auto& [from, to] : kPlainLetters) {
            if (!text.substr(i).starts_with(from)) continue;
            letter = to;
            length = from.size();
            break;
        }
        plain += letter;
        i += length;
    }
    for (char& c : plain) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return plain;
}

bool is_letter(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) != 0;
}

// Reads a text from left to right.
class Scanner {
  public:
    explicit Scanner(std::string_view text) : rest_(text) { skip_spaces(); }

    bool at_end() const { return rest_.empty(); }

    bool take(std::string_view word) {
        if (!rest_.starts_with(word)) return false;
        const bool goes_on =
            is_letter(word.back()) && rest_.size() > word.size() && is_letter(rest_[word.size()]);
        if (goes_on) return false;
        rest_.remove_prefix(word.size());
        skip_spaces();
        return true;
    }

    // "1.5", "1/60" or "5 1/2"
    std::optional<double> number() {
        const std::optional<double> first = decimal();
        if (!first) return std::nullopt;
        if (const auto divided = fraction_of(*first)) return divided;
        const std::string_view after_first = rest_;
        if (const auto second = decimal()) {
            if (const auto part = fraction_of(*second)) return *first + *part;
        }
        rest_ = after_first;
        return first;
    }

    const WrittenUnit* unit(std::span<const WrittenUnit> units) {
        for (const WrittenUnit& unit : units) {
            if (take(unit.name)) return &unit;
        }
        return nullptr;
    }

  private:
    void skip_spaces() {
        while (rest_.starts_with(' ')) rest_.remove_prefix(1);
    }

    // Without a sign.
    std::optional<double> decimal() {
        if (rest_.empty()) return std::nullopt;
        const bool begins = rest_[0] == '.' || std::isdigit(static_cast<unsigned char>(rest_[0]));
        double value = 0;
        const auto [end, error] = std::from_chars(rest_.data(), rest_.data() + rest_.size(), value);
        if (!begins || error != std::errc()) return std::nullopt;
        rest_.remove_prefix(static_cast<size_t>(end - rest_.data()));
        skip_spaces();
        return value;
    }

    std::optional<double> fraction_of(double above) {
        const std::string_view before = rest_;
        if (!take("/")) return std::nullopt;
        const auto below = decimal();
        if (below && *below > 0) return above / *below;
        rest_ = before;
        return std::nullopt;
    }

    std::string_view rest_;
};

// The sum of the terms, in the key's unit.
std::optional<double> sum_of_terms(Scanner& scanner, const Quantity& quantity) {
    double sum = 0;
    double last_factor = 0;
    bool has_bare = false;
    while (!scanner.at_end()) {
        const std::optional<double> number = scanner.number();
        if (!number || has_bare) return std::nullopt;
        const WrittenUnit* unit = scanner.unit(quantity.units);
        double factor = unit != nullptr ? unit->factor : quantity.own_unit;
        if (unit == nullptr) {
            has_bare = true;
            const bool is_inches = last_factor == kFoot;  // 5'11
            if (last_factor > 0 && !is_inches) return std::nullopt;
            if (is_inches) factor = kInch;
        }
        if (last_factor > 0 && factor >= last_factor) return std::nullopt;  // "1 cm 2 m"
        last_factor = factor;
        sum += *number * (factor / quantity.own_unit);
    }
    if (last_factor == 0) return std::nullopt;
    return sum;
}

// "-1 stop" of a share.
std::optional<double> share_in_stops(Scanner scanner, double sign) {
    const auto stops = scanner.number();
    if (!stops || scanner.unit(kStops) == nullptr || !scanner.at_end()) return std::nullopt;
    return std::exp2(sign * *stops);
}

}  // namespace

const Quantity& quantity_of(std::string_view key) {
    for (const auto& [name, quantity] : kKeys) {
        if (key == name) return *quantity;
    }
    for (const auto& [end, quantity] : kKeyEnds) {
        if (key.ends_with(end)) return *quantity;
    }
    return kPlainNumber;
}

std::optional<double> number_in_words(std::string_view text, const Quantity& quantity) {
    const std::string plain = plain_text(text);
    std::string_view rest = plain;
    if (!quantity.before.empty() && rest.starts_with(quantity.before)) {
        rest.remove_prefix(quantity.before.size());
        if (rest.starts_with('/')) rest.remove_prefix(1);
    }
    Scanner scanner(rest);
    const double sign = scanner.take("-") ? -1 : 1;
    if (sign > 0) scanner.take("+");
    if (&quantity == &kShare) {
        if (const auto share = share_in_stops(scanner, sign)) return share;
    }
    const std::optional<double> sum = sum_of_terms(scanner, quantity);
    if (!sum || !std::isfinite(*sum)) return std::nullopt;
    return sign * *sum;
}

std::string example_of(const Quantity& quantity) {
    return std::string(quantity.example);
}

}  // namespace dapple
