// Checks against published figures, each with its source. They are the rows of the accuracy table.
//
// `exact`: the result of a formula or of a single ray. It must agree with the printed figure to the
// rounding of its last digit, or to 1e-5 of the value if that is wider.
// `mean`: a mean over walks. It must be within 3.3 standard errors and the rounding of the last
// digit of the printed figure; a right program fails one such check in a thousand. The standard
// error must be 0.3 % of the value at most, or the check would be too weak.
// A wider tolerance is an allowance, and the table states its reason.
#pragma once

#include <string>
#include <vector>

namespace dapple::published {

// A wider tolerance and its reason. `value` is in the unit of the check.
struct Allowance {
    double value = 0;
    std::string reason;
};

// How exact a mean must be. `most_stderr`: the largest standard error allowed, as a share of the
// value.
struct MeanLimits {
    double most_stderr = 0.003;
    Allowance allowance = {};
};

// A mean and its standard error.
struct Estimate {
    double value = 0;
    double stderr_of_mean = 0;
};

struct Row {
    std::string subject, check, source, unit;
    std::string printed;  // the expected figure as printed in its source
    double expected = 0;
    double measured = 0;
    double standard_error = 0;  // 0 for `exact`
    double tolerance = 0;
    Allowance allowance;
    bool within = false;
};

// One subject of the suite, with its name in the table: "Point sources".
class Subject {
  public:
    explicit Subject(std::string name) : name_(std::move(name)) {}

    // `printed`: the figure as printed in the source; its number of digits gives its rounding. It
    // must be a decimal number. `unit` may be empty.
    void exact(const std::string& check,
               const std::string& source,
               const std::string& unit,
               const std::string& printed,
               double measured,
               const Allowance& allowance = {}) const;

    void mean(const std::string& check,
              const std::string& source,
              const std::string& unit,
              const std::string& printed,
              const Estimate& measured,
              const MeanLimits& limits = {}) const;

  private:
    std::string name_;
};

// The figure, and half a unit of its last printed digit: "0.4476" is 0.4476 and 0.00005.
struct PrintedFigure {
    double value = 0;
    double rounding = 0;
};
PrintedFigure read_printed(const std::string& text);

const std::vector<Row>& all_rows();

// A number as text. Six digits are enough for any printed figure.
std::string figure(double value, int digits = 6);

}  // namespace dapple::published
