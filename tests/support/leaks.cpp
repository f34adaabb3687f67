// What the leak sanitizer must not count: Fontconfig keeps its configuration until the process
// ends.

extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() {
    return "leak:libfontconfig\n";
}
