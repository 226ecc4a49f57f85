// Makes libharu's pages a good file, by libqpdf.
#include "export/pdf_finishing.h"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <new>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFWriter.hh>

#include "base/error.h"
#include "export/pdf_tags.h"

namespace tub::exporting {
namespace {

using Object = QPDFObjectHandle;

/// A stream of bytes that are deflated already; libqpdf leaves them as they are.
Object deflated_stream(QPDF& file, const std::string& bytes) {
  Object stream = file.newStream();
  stream.replaceStreamData(bytes, Object::newName("/FlateDecode"), Object::newNull());
  return stream;
}

void set_text(Object dictionary, const std::string& key, const std::string& text) {
  if (!text.empty()) dictionary.replaceKey(key, Object::newUnicodeString(text));
}

void set_information(QPDF& file, const PdfProperties& properties) {
  Object information = Object::newDictionary();
  set_text(information, "/Title", properties.title);
  set_text(information, "/Author", properties.author);
  set_text(information, "/Subject", properties.subject);
  set_text(information, "/Keywords", properties.keywords);
  set_text(information, "/Creator", properties.producer);
  set_text(information, "/Producer", properties.producer);
  set_text(information, "/CreationDate", pdf_date(properties.date));
  set_text(information, "/ModDate", pdf_date(properties.date));
  file.getTrailer().replaceKey("/Info", file.makeIndirectObject(information));
}

Object metadata(QPDF& file, const PdfProperties& properties) {
  Object stream = file.newStream(xmp_packet(properties));
  stream.getDict().replaceKey("/Type", Object::newName("/Metadata"));
  stream.getDict().replaceKey("/Subtype", Object::newName("/XML"));
  return stream;
}

/// That the colours are those of sRGB. Source: ISO 19005-1, 6.2.2
Object output_intent(QPDF& file, const PdfResources& resources) {
  Object profile = deflated_stream(file, resources.colour_profile);
  profile.getDict().replaceKey("/N", Object::newInteger(3));
  Object intent = Object::parse(
      "<< /Type /OutputIntent /S /GTS_PDFA1 /OutputConditionIdentifier (sRGB) /Info (sRGB) >>");
  intent.replaceKey("/DestOutputProfile", profile);
  return file.makeIndirectObject(intent);
}

/// What a viewer offers when it prints. Source: ISO 32000-1, 12.2
Object viewer_preferences(std::span<const Page> pages) {
  Object preferences = Object::parse("<< /DisplayDocTitle true /PrintScaling /None >>");
  const bool has_labels =
      std::any_of(pages.begin(), pages.end(), [](const Page& page) { return page.is_one_sided; });
  if (has_labels) preferences.replaceKey("/Duplex", Object::newName("/Simplex"));
  return preferences;
}

void set_catalog(QPDF& file, std::span<const Page> pages, const PdfResources& resources,
                 const PdfProperties& properties) {
  Object catalog = file.getRoot();
  catalog.replaceKey("/Lang", Object::newString(properties.language));
  catalog.replaceKey("/MarkInfo", Object::parse("<< /Marked true >>"));
  catalog.replaceKey("/ViewerPreferences", viewer_preferences(pages));
  catalog.replaceKey("/Metadata", metadata(file, properties));
  catalog.replaceKey("/OutputIntents",
                     Object::newArray(std::vector<Object>{output_intent(file, resources)}));
}

/// An area of the page as a box of a PDF, whose y grows upwards.
Object box_of(const Area& area, const Page& page) {
  const double foot = page.height - area.corner.y - area.height;
  const auto number = [](double value) {
    return value == 0 ? Object::newInteger(0) : Object::newReal(value, 4);
  };
  return Object::newArray(std::vector<Object>{number(area.corner.x), number(foot),
                                              number(area.corner.x + area.width),
                                              number(foot + area.height)});
}

/// The page's own size, which libharu rounds to its short numbers, what is left of it when it is
/// cut, and how far what is cut off is printed. Source: ISO 32000-1, 14.11.2
void set_boxes(QPDF& file, const Drawing& drawing, std::span<const Page> pages) {
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const Page& page = pages[i];
    const Area whole{{0, 0}, page.width, page.height};
    const Area trim = page.trim.value_or(whole);
    Object object = file.getObjectByID(drawing.pages[i].object, 0);
    object.replaceKey("/MediaBox", box_of(whole, page));
    object.replaceKey("/TrimBox", box_of(trim, page));
    if (page.bleed) object.replaceKey("/BleedBox", box_of(*page.bleed, page));
  }
}

/// "/TUBWRT+NotoSans-Bold,Bold" with another tag and without libharu's style.
std::string subset_name(const std::string& name, const std::string& tag) {
  const std::size_t face = name.find('+') + 1;
  return "/" + tag + "+" + name.substr(face, name.find(',') - face);
}

void mend_face(QPDF& file, const DrawnFace& face, const PdfFaceTables& tables, int cap_height) {
  Object font = file.getObjectByID(face.object, 0);
  Object descendant = font.getKey("/DescendantFonts").getArrayItem(0);
  Object descriptor = descendant.getKey("/FontDescriptor");
  const Object name =
      Object::newName(subset_name(font.getKey("/BaseFont").getName(), face.subset_tag));
  font.replaceKey("/BaseFont", name);
  font.replaceKey("/ToUnicode", deflated_stream(file, tables.to_unicode));
  descendant.replaceKey("/BaseFont", name);
  descendant.replaceKey("/CIDSystemInfo", Object::parse("<< /Registry (Adobe) /Ordering (Identity) "
                                                        "/Supplement 0 >>"));
  descendant.replaceKey("/CIDToGIDMap", deflated_stream(file, tables.cid_to_gid));
  descendant.removeKey("/DW2");
  descriptor.replaceKey("/FontName", name);
  descriptor.replaceKey("/CapHeight", Object::newInteger(cap_height));
  descriptor.replaceKey("/CIDSet", deflated_stream(file, tables.cid_set));
}

void require_no_warning(QPDF& file) {
  if (file.anyWarnings()) throw std::runtime_error(file.getWarnings().front().what());
}

/// PDF 1.4 as PDF/A-1 demands it: no object streams, a line end before every `endstream`.
std::string write(QPDF& file) {
  QPDFWriter writer(file);
  writer.setOutputMemory();
  writer.setObjectStreamMode(qpdf_o_disable);
  writer.setNewlineBeforeEndstream(true);
  writer.setSuppressOriginalObjectIDs(true);
  writer.setDeterministicID(true);
  writer.forcePDFVersion("1.4");
  writer.write();
  const std::shared_ptr<Buffer> bytes = writer.getBufferSharedPointer();
  return {reinterpret_cast<const char*>(bytes->getBuffer()), bytes->getSize()};
}

std::string finish(const Drawing& drawing, std::span<const Page> pages,
                   const PdfResources& resources, const PdfProperties& properties,
                   const FontSet& fonts) {
  QPDF file;
  file.setSuppressWarnings(true);
  file.processMemoryFile("pages", drawing.bytes.data(), drawing.bytes.size());
  set_information(file, properties);
  set_catalog(file, pages, resources, properties);
  set_boxes(file, drawing, pages);
  for (const DrawnFace& face : drawing.faces)
    mend_face(file, face, resources.face(face.face), fonts.face(face.face).cap_height());
  add_tags(file, drawing, pages, properties.language);
  std::string out = write(file);
  require_no_warning(file);
  return out;
}

}  // namespace

std::string finish_pdf(const Drawing& drawing, std::span<const Page> pages,
                       const PdfResources& resources, const PdfProperties& properties,
                       const FontSet& fonts) {
  try {
    return finish(drawing, pages, resources, properties, fonts);
  } catch (const std::bad_alloc&) {
    throw;
  } catch (const std::exception& failure) {
    throw Error(Diagnostic{.message = std::string("a PDF cannot be finished: ") + failure.what(),
                           .where = {},
                           .trace = {"finishing the pages with libqpdf"},
                           .help = {},
                           .fault = Fault::machine});
  }
}

}  // namespace tub::exporting
