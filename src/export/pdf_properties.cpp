// What a PDF says about itself, as PDF dates and as an XMP packet.
#include "export/pdf_properties.h"

#include <fmt/format.h>

#include <string_view>
#include <utility>

#include "base/text.h"

namespace tub::exporting {
namespace {

std::string escaped(std::string_view text) {
  return replaced(replaced(replaced(text, "&", "&amp;"), "<", "&lt;"), ">", "&gt;");
}

std::string xmp_date(const Date& date) {
  return fmt::format("{:04}-{:02}-{:02}T00:00:00+00:00", date.year, date.month, date.day);
}

/// A property of the packet; none if there is nothing to say.
std::string simple(std::string_view name, std::string_view text) {
  return text.empty() ? std::string() : fmt::format("<{0}>{1}</{0}>\n", name, escaped(text));
}

/// A property that holds a list of one: in one language, ordered, or not.
std::string listed(std::string_view name, std::string_view list, std::string_view text) {
  if (text.empty()) return {};
  const std::string_view language = list == "Alt" ? " xml:lang=\"x-default\"" : "";
  return fmt::format("<{0}><rdf:{1}><rdf:li{2}>{3}</rdf:li></rdf:{1}></{0}>\n", name, list,
                     language, escaped(text));
}

// The packet's id is fixed by the XMP specification, part 1, 7.3.2; the byte order mark before it
// tells readers that scan for packets that the text is UTF-8.
constexpr std::string_view opening =
    "<?xpacket begin=\"\xEF\xBB\xBF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
    "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n"
    "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
    "<rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\"\n"
    " xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\" xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\"\n"
    " xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\">\n";
constexpr std::string_view closing =
    "<pdfaid:part>1</pdfaid:part>\n<pdfaid:conformance>B</pdfaid:conformance>\n"
    "</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>\n";

}  // namespace

PdfProperties properties_of(const Page& page, std::string producer) {
  return {.title = page.title,
          .language = page.language,
          .author = page.properties.author,
          .subject = page.properties.subject,
          .keywords = page.properties.fingerprint,
          .date = page.properties.date,
          .producer = std::move(producer)};
}

std::string pdf_date(const Date& date) {
  return fmt::format("D:{:04}{:02}{:02}000000+00'00'", date.year, date.month, date.day);
}

std::string xmp_packet(const PdfProperties& properties) {
  std::string packet(opening);
  packet += simple("dc:format", "application/pdf");
  packet += listed("dc:title", "Alt", properties.title);
  packet += listed("dc:creator", "Seq", properties.author);
  packet += listed("dc:description", "Alt", properties.subject);
  packet += listed("dc:language", "Bag", properties.language);
  packet += simple("xmp:CreatorTool", properties.producer);
  packet += simple("xmp:CreateDate", xmp_date(properties.date));
  packet += simple("xmp:ModifyDate", xmp_date(properties.date));
  packet += simple("pdf:Producer", properties.producer);
  packet += simple("pdf:Keywords", properties.keywords);
  packet += closing;
  return packet;
}

}  // namespace tub::exporting
