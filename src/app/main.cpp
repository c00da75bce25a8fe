#include <cstdio>

int main() {
    std::puts("compline");
    return 0;
}
