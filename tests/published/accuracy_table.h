// The accuracy table: every published check with the expected and the measured figure.
#pragma once

#include <string>
#include <vector>

#include "published/published.h"

namespace dapple::published {

// The summary by subject, then the rows. Small deviations are printed too, not as 0.
std::string accuracy_markdown(const std::vector<Row>& rows);
std::string accuracy_json(const std::vector<Row>& rows);

// Writes accuracy.md and accuracy.json; throws FileError.
void write_accuracy_table(const std::string& folder, const std::vector<Row>& rows);

}  // namespace dapple::published
