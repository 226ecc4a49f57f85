// libharu's document with an owner, the prepared faces in it, and its errors as exceptions.
#include "export/haru.h"

#include <fmt/format.h>
#include <hpdf.h>

#include <algorithm>
#include <cstdlib>
#include <cstring>
#include <new>
#include <string_view>

#include "base/error.h"

// The character table below and the exporter's marks are written into libharu's own records, whose
// shape is that of this version.
static_assert(HPDF_VERSION_ID == 20300, "check haru.cpp and pdf_drawing.cpp against this libharu");

namespace tub::exporting {

/// A font file, and how far it is read.
struct HaruFontBytes {
  std::string_view bytes;
  std::size_t at = 0;
};

namespace {

HaruFontBytes& cursor(HPDF_Stream stream) { return *static_cast<HaruFontBytes*>(stream->attr); }

HPDF_STATUS read(HPDF_Stream stream, HPDF_BYTE* out, HPDF_UINT* count) {
  HaruFontBytes& from = cursor(stream);
  const std::size_t given = std::min<std::size_t>(*count, from.bytes.size() - from.at);
  std::memcpy(out, from.bytes.data() + from.at, given);
  from.at += given;
  const bool is_short = given < *count;
  *count = static_cast<HPDF_UINT>(given);
  return is_short ? HPDF_STREAM_EOF : HPDF_OK;
}

HPDF_STATUS seek(HPDF_Stream stream, HPDF_INT offset, HPDF_WhenceMode whence) {
  HaruFontBytes& in = cursor(stream);
  const auto size = static_cast<long long>(in.bytes.size());
  const auto here = static_cast<long long>(in.at);
  const long long base = whence == HPDF_SEEK_SET ? 0 : whence == HPDF_SEEK_CUR ? here : size;
  const long long to = base + offset;
  if (to < 0 || to > size) return HPDF_FILE_IO_ERROR;
  in.at = static_cast<std::size_t>(to);
  return HPDF_OK;
}

HPDF_INT32 tell(HPDF_Stream stream) { return static_cast<HPDF_INT32>(cursor(stream).at); }

HPDF_UINT32 size(HPDF_Stream stream) {
  return static_cast<HPDF_UINT32>(cursor(stream).bytes.size());
}

/// An allocation of libharu's failed in this thread. It goes on for a while then, with what it
/// lacks as an invalid object, and reports that instead.
thread_local bool has_run_out = false;

void* HPDF_STDCALL allocated(HPDF_UINT size) {
  void* const memory = std::malloc(size);
  has_run_out = has_run_out || memory == nullptr;
  return memory;
}

/// Tells libharu's UTF-8 encoder which characters there are, so that it asks a face for these alone
/// and not for all 65,536 (0.7 instead of 2.6 ms a document). Row 0 of the tables is the encoder's
/// own state. libharu gives the highest code neither width nor glyph, hence one more than ours.
void fill_character_table(HPDF_CMapEncoderAttr table, const Font& font) {
  const std::vector<char32_t> characters = font.characters();
  const auto put = [table](std::size_t index, char32_t code, char32_t character) {
    const std::size_t row = index / 256 + 1;
    table->cid_map[row][index % 256] = static_cast<HPDF_UINT16>(code);
    table->unicode_map[row][index % 256] = static_cast<HPDF_UNICODE>(character);
  };
  for (std::size_t i = 0; i < characters.size(); ++i) put(i, characters[i], characters[i]);
  put(characters.size(), characters.back() + 1, 0);
}

/// Empties the font's table of glyphs, 131 kB that libharu would write and that the finishing pass
/// replaces.
void drop_glyph_table(HPDF_Font font) {
  const HPDF_Dict descendant = static_cast<HPDF_FontAttr>(font->attr)->descendant_font;
  auto* const table =
      static_cast<HPDF_Dict>(HPDF_Dict_GetItem(descendant, "CIDToGIDMap", HPDF_OCLASS_DICT));
  if (table != nullptr) HPDF_MemStream_FreeData(table->stream);
}

}  // namespace

struct HaruDocument::Reader : HaruFontBytes {};

HaruDocument::HaruDocument() : document_(HPDF_NewEx(nullptr, allocated, std::free, 0, nullptr)) {
  if (document_ == nullptr) throw std::bad_alloc();
  has_run_out = false;
  HPDF_SetCompressionMode(document_, HPDF_COMP_NONE);
  HPDF_UseUTFEncodings(document_);
}

HaruDocument::~HaruDocument() { HPDF_Free(document_); }

_HPDF_Dict_Rec* HaruDocument::add_face(const Font& font) {
  readers_.push_back(std::make_unique<Reader>());
  readers_.back()->bytes = font.bytes();
  const HPDF_Stream stream = HPDF_CallbackReader_New(
      document_->mmgr, read, seek, tell, size, static_cast<HaruFontBytes*>(readers_.back().get()));
  const HPDF_FontDef face = HPDF_TTFontDef_Load(document_->mmgr, stream, HPDF_TRUE);
  require_no_error("reading the face " + font.name());
  std::string tag = "TUBWRT";  // replaced when the file is finished
  HPDF_TTFontDef_SetTagName(face, tag.data());
  HPDF_Doc_RegisterFontDef(document_, face);
  const HPDF_Encoder encoder = HPDF_GetEncoder(document_, "UTF-8");
  require_no_error("preparing the face " + font.name());
  const HPDF_Encoder_ToUnicode_Func usual = encoder->to_unicode_fn;
  fill_character_table(static_cast<HPDF_CMapEncoderAttr>(encoder->attr), font);
  encoder->to_unicode_fn = HPDF_CMapEncoder_ToUnicode;
  const HPDF_Font made = HPDF_GetFont(document_, face->base_font, "UTF-8");
  encoder->to_unicode_fn = usual;
  require_no_error("preparing the face " + font.name());
  drop_glyph_table(made);
  return made;
}

void HaruDocument::require_no_error(const std::string& doing) const {
  const HPDF_STATUS status = HPDF_GetError(document_);
  if (status == HPDF_OK) return;
  if (has_run_out || status == HPDF_FAILD_TO_ALLOC_MEM) throw std::bad_alloc();
  throw Error(Diagnostic{.message = fmt::format("libharu reports error 0x{:04X}, detail {}", status,
                                                HPDF_GetErrorDetail(document_)),
                         .where = {},
                         .trace = {doing},
                         .help = {},
                         .fault = Fault::machine});
}

std::string HaruDocument::bytes() const {
  HPDF_SaveToStream(document_);
  require_no_error("writing the pages");
  // libharu would copy its blocks byte by byte.
  std::string out;
  const HPDF_Stream written = document_->stream;
  for (HPDF_UINT block = 0; out.size() < written->size; ++block) {
    HPDF_UINT length = 0;
    const HPDF_BYTE* const begin = HPDF_MemStream_GetBufPtr(written, block, &length);
    require_no_error("writing the pages");
    out.append(reinterpret_cast<const char*>(begin), length);
  }
  return out;
}

}  // namespace tub::exporting
