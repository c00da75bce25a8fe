// The smallest whole use of the core: a chart in, what the band plays of it once out, as a WAV
// file. The same bytes as `compline render CHART OUT.wav` writes where the chart has no road map.

#include <compline/band/band.hpp>
#include <compline/band/place.hpp>
#include <compline/sound/render.hpp>

#include <cstdio>
#include <exception>

using namespace compline;

namespace {

void chart_to_wav(const char* chart_file, const char* wav_file) {
    const auto form = chart::unroll(chart::load_chart(chart_file));
    roadmap::Asked asked;
    asked.way = chart::Way::through(form, form.whole(), 1);

    // What is played, bar by bar, and when; then what the band makes of it, as musicians write it;
    // then in frames.
    const roadmap::RoadMap map(form, asked);
    const auto part = band::arrange(map, {});
    const time::SampleRate rate(48000);
    const auto bar_1 = time::nearest_frame(map.lead(), rate);
    const auto cues = band::place(part, map, rate, bar_1, {}, time::Frames(0));

    const sound::Bank bank(rate);
    const auto end = sound::end_of(cues, bank, bar_1);
    (void)sound::render_wav(cues, bank, {time::Frames(0), end}, wav_file);
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 3) {
        std::fputs("chart_to_wav CHART OUT.wav: a chart to read, a file to write\n", stderr);
        return 2;
    }
    try {
        chart_to_wav(argv[1], argv[2]);
        return 0;
    } catch (const std::exception& error) {  // says which file, where in it, and what to do
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
}
