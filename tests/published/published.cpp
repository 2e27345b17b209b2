#include "published/published.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <stdexcept>

namespace dapple::published {

namespace {

std::vector<Row>& rows() {
    static std::vector<Row> all;
    return all;
}

void judge(Row row) {
    row.within = std::abs(row.measured - row.expected) <= row.tolerance;
    CAPTURE(row.subject);
    CAPTURE(row.check);
    CAPTURE(row.source);
    CAPTURE(row.expected);
    CAPTURE(row.measured);
    CAPTURE(row.standard_error);
    CAPTURE(row.tolerance);
    CHECK(row.within);
    rows().push_back(std::move(row));
}

}  // namespace

PrintedFigure read_printed(const std::string& text) {
    size_t used = 0;
    PrintedFigure figure{std::stod(text, &used), 0};
    if (used != text.size()) throw std::invalid_argument("not a figure: " + text);
    const size_t exponent_at = std::min(text.find_first_of("eE"), text.size());
    const int exponent = exponent_at < text.size() ? std::stoi(text.substr(exponent_at + 1)) : 0;
    const size_t point = std::min(text.find('.'), exponent_at);
    const size_t decimals = point < exponent_at ? exponent_at - point - 1 : 0;
    figure.rounding = 0.5 * std::pow(10.0, exponent - static_cast<int>(decimals));
    return figure;
}

void Subject::exact(const std::string& check,
                    const std::string& source,
                    const std::string& unit,
                    const std::string& printed,
                    double measured,
                    const Allowance& allowance) const {
    const PrintedFigure expected = read_printed(printed);
    Row row{name_, check, source, unit, printed, expected.value, measured, 0, 0, allowance};
    // Slightly more than half a digit, for figures that end in a five.
    const double rounding = 1.0001 * expected.rounding;
    row.tolerance = std::max({rounding, 1e-5 * std::abs(expected.value), allowance.value});
    judge(std::move(row));
}

void Subject::mean(const std::string& check,
                   const std::string& source,
                   const std::string& unit,
                   const std::string& printed,
                   const Estimate& measured,
                   const MeanLimits& limits) const {
    const PrintedFigure expected = read_printed(printed);
    const Allowance& allowance = limits.allowance;
    const double se = measured.stderr_of_mean;
    Row row{name_, check, source, unit, printed, expected.value, measured.value, se, 0, allowance};
    row.tolerance = 3.3 * se + expected.rounding + allowance.value;
    judge(std::move(row));
    CAPTURE(check);
    CAPTURE(measured.value);
    CAPTURE(se);
    CHECK(se > 0);
    CHECK(se <= limits.most_stderr * std::abs(expected.value));
}

const std::vector<Row>& all_rows() {
    return rows();
}

std::string figure(double value, int digits) {
    char text[48];
    std::snprintf(text, sizeof text, "%.*g", digits, value);
    return text;
}

}  // namespace dapple::published
