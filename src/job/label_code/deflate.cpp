#include "job/label_code/deflate.h"

#include <zlib.h>

#include <new>
#include <vector>

#include "base/error.h"

namespace tub::job {
namespace {

constexpr int raw_window_bits = -15;  // zlib's way to ask for no header and no checksum
constexpr int most_memory = 9;

std::vector<Bytef> bytes_of(std::string_view text) { return {text.begin(), text.end()}; }

/// A zlib stream that is ended when it goes out of scope.
struct Stream {
  z_stream state{};
  int (*end)(z_streamp) = nullptr;

  explicit Stream(int (*end_with)(z_streamp)) : end(end_with) {}
  Stream(const Stream&) = delete;
  Stream& operator=(const Stream&) = delete;
  ~Stream() { end(&state); }

  void read_from(std::vector<Bytef>& bytes) {
    state.next_in = bytes.data();
    state.avail_in = static_cast<uInt>(bytes.size());
  }
  void write_to(std::vector<Bytef>& bytes) {
    state.next_out = bytes.data();
    state.avail_out = static_cast<uInt>(bytes.size());
  }
  std::string written(const std::vector<Bytef>& bytes) const {
    return {bytes.begin(), bytes.begin() + static_cast<std::ptrdiff_t>(state.total_out)};
  }
};

}  // namespace

std::string deflated(std::string_view text, std::string_view dictionary) {
  std::vector<Bytef> in = bytes_of(text);
  const std::vector<Bytef> known = bytes_of(dictionary);
  Stream stream(deflateEnd);
  int status = deflateInit2(&stream.state, Z_BEST_COMPRESSION, Z_DEFLATED, raw_window_bits,
                            most_memory, Z_DEFAULT_STRATEGY);
  if (status == Z_OK) {
    status = deflateSetDictionary(&stream.state, known.data(), static_cast<uInt>(known.size()));
  }
  if (status == Z_MEM_ERROR) throw std::bad_alloc();
  std::vector<Bytef> out(deflateBound(&stream.state, static_cast<uLong>(in.size())));
  stream.read_from(in);
  stream.write_to(out);
  if (status == Z_OK) status = deflate(&stream.state, Z_FINISH);
  if (status != Z_STREAM_END) {
    throw Error(Diagnostic{.message = "zlib cannot deflate the job",
                           .where = {},
                           .trace = {"making a label's code"},
                           .help = {},
                           .fault = Fault::machine});
  }
  return stream.written(out);
}

std::optional<std::string> inflated(std::string_view bytes, std::string_view dictionary,
                                    std::size_t longest) {
  std::vector<Bytef> in = bytes_of(bytes);
  const std::vector<Bytef> known = bytes_of(dictionary);
  Stream stream(inflateEnd);
  const int begun = inflateInit2(&stream.state, raw_window_bits);
  if (begun == Z_MEM_ERROR) throw std::bad_alloc();
  if (begun != Z_OK) return std::nullopt;
  if (inflateSetDictionary(&stream.state, known.data(), static_cast<uInt>(known.size())) != Z_OK) {
    return std::nullopt;
  }
  std::vector<Bytef> out(longest + 1);
  stream.read_from(in);
  stream.write_to(out);
  const int status = inflate(&stream.state, Z_FINISH);
  if (status == Z_MEM_ERROR) throw std::bad_alloc();
  const bool is_whole = status == Z_STREAM_END;
  if (!is_whole || stream.state.avail_in > 0 || stream.state.total_out > longest) {
    return std::nullopt;
  }
  return stream.written(out);
}

}  // namespace tub::job
