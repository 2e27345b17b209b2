// Makes an element: its properties (aria-*, class and role as attributes), and what is in it.

function make(tag, properties, ...children) {
  const element = document.createElement(tag);
  for (const [key, value] of Object.entries(properties || {})) {
    if (key.startsWith("aria-") || key === "class" || key === "role") element.setAttribute(key, value);
    else element[key] = value;
  }
  element.append(...children);
  return element;
}
