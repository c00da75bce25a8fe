#include <compline/sound/flush_to_zero.hpp>

#if defined(__SSE2__)
#include <xmmintrin.h>
#endif

namespace compline::sound {

#if defined(__SSE2__)

namespace {
constexpr unsigned flush_results = 0x8000;   // FTZ, bit 15 of MXCSR
constexpr unsigned flush_operands = 0x0040;  // DAZ, bit 6
}  // namespace

ScopedFlushToZero::ScopedFlushToZero() noexcept : before_(_mm_getcsr()) {
    _mm_setcsr(static_cast<unsigned>(before_) | flush_results | flush_operands);
}
ScopedFlushToZero::~ScopedFlushToZero() { _mm_setcsr(static_cast<unsigned>(before_)); }

#elif defined(__aarch64__)

namespace {
constexpr unsigned long long flush = 1ULL << 24;  // FZ of FPCR, operands and results
}  // namespace

ScopedFlushToZero::ScopedFlushToZero() noexcept {
    __asm__ volatile("mrs %0, fpcr" : "=r"(before_));
    __asm__ volatile("msr fpcr, %0" : : "r"(before_ | flush));
}
ScopedFlushToZero::~ScopedFlushToZero() { __asm__ volatile("msr fpcr, %0" : : "r"(before_)); }

#else

ScopedFlushToZero::ScopedFlushToZero() noexcept = default;
ScopedFlushToZero::~ScopedFlushToZero() = default;

#endif

}  // namespace compline::sound
