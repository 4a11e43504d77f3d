/** Which strings of a source are names rather than words: of modules, members, types, and what is compared with. */
import type { VisitorObject } from 'oxc-parser';

interface Place {
  start: number;
}

/** Visitors that tell `isName` of each, to be put into those of the caller. */
export const nameVisitors = (isName: (node: Place | null | undefined) => void) =>
  ({
    ImportDeclaration: ({ source }) => isName(source),
    ExportNamedDeclaration: ({ source }) => isName(source),
    ExportAllDeclaration: ({ source }) => isName(source),
    ImportExpression: ({ source }) => isName(source),
    TSLiteralType: ({ literal }) => isName(literal),
    Property: ({ key }) => isName(key),
    MemberExpression: (node) => isName(node.computed ? node.property : null),
    SwitchCase: ({ test }) => isName(test),
    BinaryExpression: ({ operator, left, right }) => {
      if (!/^(?:[!=]==?|in)$/.test(operator)) return;
      isName(left);
      isName(right);
    },
  }) satisfies VisitorObject;
