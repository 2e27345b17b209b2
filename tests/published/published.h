// Checks against published figures, each with its source, kept as the rows of the accuracy table.
//
// `exact`: what a formula or a single ray gives, against the digits as they are printed. It must
// agree to the rounding of the last digit, or to 1e-5 of the value where that is wider.
// `mean`: what walks find, within 3.3 standard errors of the printed figure and the rounding of its
// last digit; a right program fails one such check in a thousand. The standard error must be 0.3 %
// of the value at most, or the check would say little.
// Anything wider is an allowance, and carries its reason into the table.
#pragma once

#include <string>
#include <vector>

namespace dapple::published {

// What a wider tolerance is for. `value` is in the unit of the check.
struct Allowance {
    double value = 0;
    std::string reason;
};

// A mean and its standard error.
struct Estimate {
    double value = 0;
    double stderr_of_mean = 0;
};

struct Row {
    std::string subject, check, source, unit;
    std::string printed;  // the expected figure as its source prints it
    double expected = 0;
    double measured = 0;
    double standard_error = 0;  // 0: no chance in it
    double tolerance = 0;
    Allowance allowance;
    bool within = false;
};

// One subject of the suite, named as the table names it: "Point sources".
class Subject {
  public:
    explicit Subject(std::string name) : name_(std::move(name)) {}

    // `printed`: the figure as the source prints it, so that its digits say how far it is known;
    // "1/9" and the like are not read. `unit` may be empty.
    void exact(const std::string& check,
               const std::string& source,
               const std::string& unit,
               const std::string& printed,
               double measured,
               const Allowance& allowance = {}) const;

    // `most`: the largest standard error that still makes a check, as a share of the value.
    void mean(const std::string& check,
              const std::string& source,
              const std::string& unit,
              const std::string& printed,
              const Estimate& measured,
              double most = 0.003,
              const Allowance& allowance = {}) const;

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

// A number with as many digits as `print` needs to lose nothing that a source prints: six.
std::string figure(double value, int digits = 6);

}  // namespace dapple::published
