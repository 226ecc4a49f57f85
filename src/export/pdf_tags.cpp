// The structure tree of a tagged PDF.
#include "export/pdf_tags.h"

#include <fmt/format.h>

#include <qpdf/QPDF.hh>

namespace tub::exporting {
namespace {

using Object = QPDFObjectHandle;

Object name(std::string_view text) { return Object::newName("/" + std::string(text)); }

/// What a table must know of a cell beside its text. Source: ISO 32000-1, 14.8.5.7
Object table_attributes(const Element& cell) {
  Object attributes = Object::newDictionary();
  attributes.replaceKey("/O", name("Table"));
  if (cell.role == Role::header_cell)
    attributes.replaceKey("/Scope", name(cell.scope == Element::Scope::row ? "Row" : "Column"));
  if (cell.columns != 1) attributes.replaceKey("/ColSpan", Object::newInteger(cell.columns));
  return attributes;
}

Object described(const Element& element) {
  Object node = Object::newDictionary();
  node.replaceKey("/S", name(structure_type(element)));
  if (!element.alt.empty()) node.replaceKey("/Alt", Object::newUnicodeString(element.alt));
  if (!element.language.empty()) node.replaceKey("/Lang", Object::newString(element.language));
  if (element.role == Role::header_cell || element.columns != 1)
    node.replaceKey("/A", table_attributes(element));
  return node;
}

/// An array, or its only member as it is.
void set_kids(Object node, const std::vector<Object>& kids) {
  if (kids.empty()) return;
  node.replaceKey("/K", kids.size() == 1 ? kids.front() : Object::newArray(kids));
}

/// The elements of one page as objects of the file, each with its parent, page and kids.
std::vector<Object> page_nodes(QPDF& file, const Page& page, const DrawnPage& drawn,
                               const Object& above) {
  const Object page_object = file.getObjectByID(drawn.object, 0);
  std::vector<Object> nodes;
  std::vector<std::vector<Object>> kids(page.elements.size());
  for (const Element& element : page.elements) {
    Object node = file.makeIndirectObject(described(element));
    const auto parent = static_cast<std::size_t>(element.parent);
    node.replaceKey("/P", element.parent < 0 ? above : nodes.at(parent));
    if (element.parent >= 0) kids.at(parent).push_back(node);
    nodes.push_back(node);
  }
  for (std::size_t mark = 0; mark < drawn.marks.size(); ++mark) {
    const auto element = static_cast<std::size_t>(drawn.marks[mark]);
    nodes.at(element).replaceKey("/Pg", page_object);
    kids.at(element).push_back(Object::newInteger(static_cast<long long>(mark)));
  }
  for (std::size_t i = 0; i < nodes.size(); ++i) set_kids(nodes[i], kids[i]);
  return nodes;
}

/// The element of each marked content of a page.
Object elements_of_marks(const std::vector<Object>& nodes, const DrawnPage& drawn) {
  std::vector<Object> elements;
  for (const int element : drawn.marks)
    elements.push_back(nodes.at(static_cast<std::size_t>(element)));
  return Object::newArray(elements);
}

}  // namespace

void add_tags(QPDF& file, const Drawing& drawing, std::span<const Page> pages,
              const std::string& language) {
  Object root = file.makeIndirectObject(Object::newDictionary());
  Object document = file.makeIndirectObject(Object::newDictionary());
  std::vector<Object> sections;
  Object numbers = Object::newArray();
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const auto key = Object::newInteger(static_cast<long long>(i));
    const std::vector<Object> nodes = page_nodes(file, pages[i], drawing.pages[i], document);
    if (pages[i].language != language)
      Object(nodes.front()).replaceKey("/Lang", Object::newString(pages[i].language));
    sections.push_back(nodes.front());
    numbers.appendItem(key);
    numbers.appendItem(elements_of_marks(nodes, drawing.pages[i]));
    file.getObjectByID(drawing.pages[i].object, 0).replaceKey("/StructParents", key);
  }
  document.replaceKey("/S", name("Document"));
  document.replaceKey("/P", root);
  set_kids(document, sections);
  Object parents = Object::newDictionary();
  parents.replaceKey("/Nums", numbers);
  root.replaceKey("/Type", name("StructTreeRoot"));
  root.replaceKey("/K", document);
  root.replaceKey("/ParentTree", file.makeIndirectObject(parents));
  root.replaceKey("/ParentTreeNextKey", Object::newInteger(static_cast<long long>(pages.size())));
  file.getRoot().replaceKey("/StructTreeRoot", root);
}

}  // namespace tub::exporting
