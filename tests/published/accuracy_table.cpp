#include "published/accuracy_table.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "output/safe_file.h"

namespace dapple::published {

namespace {

double deviation(const Row& row) {
    return row.measured - row.expected;
}

// Per cent of the expected figure; empty if that is 0.
std::string percent(const Row& row) {
    if (row.expected == 0) return "";
    return figure(100 * deviation(row) / std::abs(row.expected), 2);
}

std::string in_standard_errors(const Row& row) {
    return row.standard_error > 0 ? figure(deviation(row) / row.standard_error, 2) : "";
}

std::vector<std::string> subjects_of(const std::vector<Row>& rows) {
    std::vector<std::string> names;
    for (const Row& row : rows) {
        if (std::find(names.begin(), names.end(), row.subject) == names.end()) {
            names.push_back(row.subject);
        }
    }
    std::sort(names.begin(), names.end());
    return names;
}

const char* verdict(bool within) {
    return within ? "within" : "**outside**";
}

// A table cell. A bar in the text is escaped, because it would end the cell.
std::string cell(const std::string& text) {
    std::string safe;
    for (const char c : text) {
        if (c == '|') safe += '\\';
        safe += c;
    }
    return " " + safe + " |";
}

std::string summary_line(const std::string& subject, const std::vector<Row>& rows) {
    int checks = 0;
    int within = 0;
    double worst_percent = 0;
    double worst_errors = 0;
    for (const Row& row : rows) {
        if (row.subject != subject) continue;
        ++checks;
        within += row.within ? 1 : 0;
        if (row.expected != 0) {
            worst_percent = std::max(worst_percent, std::abs(100 * deviation(row) / row.expected));
        }
        if (row.standard_error > 0) {
            worst_errors = std::max(worst_errors, std::abs(deviation(row)) / row.standard_error);
        }
    }
    return "|" + cell(subject) + cell(std::to_string(checks)) + cell(std::to_string(within)) +
           cell(figure(worst_percent, 2)) + cell(worst_errors > 0 ? figure(worst_errors, 2) : "") +
           "\n";
}

std::string row_line(const Row& row) {
    const std::string reason =
        row.allowance.reason.empty()
            ? ""
            : " (" + figure(row.allowance.value, 2) + " allowed: " + row.allowance.reason + ")";
    return "|" + cell(row.check + reason) + cell(row.source) + cell(row.printed) +
           cell(figure(row.measured, 7)) + cell(row.unit) +
           cell(row.standard_error > 0 ? figure(row.standard_error, 2) : "") +
           cell(in_standard_errors(row)) + cell(percent(row)) + cell(verdict(row.within)) + "\n";
}

}  // namespace

std::string accuracy_markdown(const std::vector<Row>& rows) {
    const auto within =
        std::count_if(rows.begin(), rows.end(), [](const Row& row) { return row.within; });
    std::string text = "# Published figures and the figures measured here\n\n";
    text += std::to_string(rows.size()) + " checks, " + std::to_string(within) + " within.\n\n";
    text +=
        "Figures without a standard error must agree to the last printed digit, or to 1e-5. "
        "Figures "
        "with a standard error must agree within 3.3 standard errors and the rounding of the last "
        "printed digit; one right figure in a thousand will not. A wider tolerance is given beside "
        "the check, with its reason.\n\n";
    text +=
        "| subject | checks | within | largest deviation, % | largest, in standard errors |\n"
        "| --- | --- | --- | --- | --- |\n";
    const std::vector<std::string> subjects = subjects_of(rows);
    for (const std::string& subject : subjects) text += summary_line(subject, rows);
    for (const std::string& subject : subjects) {
        text += "\n## " + subject + "\n\n";
        text +=
            "| check | source | expected | measured | unit | standard error | deviation, in "
            "standard errors | deviation, % | verdict |\n"
            "| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n";
        for (const Row& row : rows) {
            if (row.subject == subject) text += row_line(row);
        }
    }
    return text;
}

std::string accuracy_json(const std::vector<Row>& rows) {
    nlohmann::ordered_json list = nlohmann::ordered_json::array();
    for (const Row& row : rows) {
        nlohmann::ordered_json entry = {{"subject", row.subject},
                                        {"check", row.check},
                                        {"source", row.source},
                                        {"unit", row.unit},
                                        {"printed", row.printed},
                                        {"expected", row.expected},
                                        {"measured", row.measured},
                                        {"standard_error", row.standard_error},
                                        {"tolerance", row.tolerance},
                                        {"within", row.within}};
        if (!row.allowance.reason.empty()) {
            entry["allowance"] = row.allowance.value;
            entry["allowance_reason"] = row.allowance.reason;
        }
        list.push_back(entry);
    }
    return list.dump(1) + "\n";
}

void write_accuracy_table(const std::string& folder, const std::vector<Row>& rows) {
    write_text(folder + "/accuracy.md", accuracy_markdown(rows));
    write_text(folder + "/accuracy.json", accuracy_json(rows));
}

}  // namespace dapple::published
