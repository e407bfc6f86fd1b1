export type Child = Node | string | null | undefined | false;
export type Attributes = Readonly<Record<string, string | number | boolean | null | undefined>>;

/** Makes an element: attributes that are null, undefined or false are left out, true stands empty, texts become text nodes. */
export type Make = (tag: string, attributes?: Attributes, ...children: readonly Child[]) => HTMLElement;

export function maker(document: Document): Make {
  return (tag, attributes = {}, ...children) => {
    const element = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) {
      if (value === null || value === undefined || value === false) continue;
      element.setAttribute(name, value === true ? '' : String(value));
    }
    for (const child of children) {
      if (child === null || child === undefined || child === false) continue;
      element.append(child);
    }
    return element;
  };
}

/**
 * The title is the one place where the serializer leaves text as it is; there a browser reads character references but no tags
 * (HTML, RCDATA).
 */
export function titleText(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}
