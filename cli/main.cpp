#include "run.hpp"

#include <sectio/base/temporary_file.hpp>

int main(int argc, char** argv) {
    sectio::remove_temporaries_at_signals();
    return sectio::cli::run(argc, argv);
}
