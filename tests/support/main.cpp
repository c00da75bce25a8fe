#if !__has_include(<catch2/catch_all.hpp>)
#define CATCH_CONFIG_RUNNER
#endif
#include "support/catch.hpp"

int main(int argc, char** argv) { return Catch::Session().run(argc, argv); }
