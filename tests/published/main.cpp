// Runs the published checks. With DAPPLE_ACCURACY set to a folder, also leaves the accuracy table
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
