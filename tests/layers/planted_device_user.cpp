// What compline_core must never contain. The layer check is run on it to see that it can fail.
extern "C" int jack_get_time();

namespace compline::tests {

int planted_device_user() { return jack_get_time(); }

}  // namespace compline::tests
