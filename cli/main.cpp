#include "run.hpp"

int main(int argc, char** argv) {
    return sectio::cli::run(argc, argv);
}
