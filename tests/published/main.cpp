// Runs the published checks. If DAPPLE_ACCURACY is set to a folder, also writes the accuracy table
// there, as accuracy.md and accuracy.json.
#define DOCTEST_CONFIG_IMPLEMENT
#include <doctest/doctest.h>

#include <cstdlib>

#include "published/accuracy_table.h"

int main(int argc, char** argv) {
    doctest::Context context(argc, argv);
    const int failed = context.run();
    const char* const folder = std::getenv("DAPPLE_ACCURACY");
    if (folder && !context.shouldExit()) {
        dapple::published::write_accuracy_table(folder, dapple::published::all_rows());
    }
    return failed;
}
