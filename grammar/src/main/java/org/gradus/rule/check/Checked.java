package org.gradus.rule.check;

import java.util.IdentityHashMap;
import java.util.LinkedHashSet;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/** A tree together with what was found out about it. */
public final class Checked {

  private final Expression root;
  // Looked up at every step of an evaluation, and never changed.
  private final IdentityHashMap<Expression, Type> types;
  private final IdentityHashMap<Expression, PartMeaning> meanings;
  private final TreeSize extent;

  Checked(
      Expression root,
      IdentityHashMap<Expression, Type> types,
      IdentityHashMap<Expression, PartMeaning> meanings) {
    this.root = root;
    this.types = new IdentityHashMap<>(types);
    this.meanings = new IdentityHashMap<>(meanings);
    this.extent = TreeSize.of(root, meanings.values());
  }

  /** The tree. */
  public Expression root() {
    return root;
  }

  /** A part of the tree, with what was found out about it. */
  public Checked at(Expression part) {
    IdentityHashMap<Expression, Type> itsTypes = new IdentityHashMap<>();
    IdentityHashMap<Expression, PartMeaning> itsMeanings = new IdentityHashMap<>();
    collect(part, itsTypes, itsMeanings);
    return new Checked(part, itsTypes, itsMeanings);
  }

  private void collect(
      Expression part,
      IdentityHashMap<Expression, Type> itsTypes,
      IdentityHashMap<Expression, PartMeaning> itsMeanings) {
    Optional.ofNullable(types.get(part)).ifPresent(type -> itsTypes.put(part, type));
    Optional.ofNullable(meanings.get(part)).ifPresent(meaning -> itsMeanings.put(part, meaning));
    part.parts().forEach(inner -> collect(inner, itsTypes, itsMeanings));
  }

  /** What the whole evaluates to. */
  public Type type() {
    return typeOf(root).orElseThrow();
  }

  /** What a part evaluates to; nothing for the inner links of a chain of products. */
  public Optional<Type> typeOf(Expression part) {
    return Optional.ofNullable(types.get(part));
  }

  /** The meaning of a reference, a call or the subject of {@code is}. */
  public PartMeaning meaningOf(Expression part) {
    PartMeaning meaning = meanings.get(part);
    if (meaning == null) {
      throw new IllegalArgumentException("not a part with a meaning: " + part.span().text());
    }
    return meaning;
  }

  /** The meaning of a part, if it is a reference or a call. */
  public Optional<PartMeaning> meaning(Expression part) {
    return Optional.ofNullable(meanings.get(part));
  }

  /** The figure a part stands for, if it is written out or a setting, in the unit it has there. */
  public Optional<Quantity> fixed(Expression part) {
    if (part instanceof Expression.Literal literal) {
      return Optional.of(literal.quantity());
    }
    return meanings.get(part) instanceof PartMeaning.Fixed fixed
        ? Optional.of(fixed.value())
        : Optional.empty();
  }

  TreeSize extent() {
    return extent;
  }

  /** Every slot it reads, also by way of definitions. */
  public Set<PartMeaning.Slot> slots() {
    return meanings.values().stream()
        .flatMap(meaning -> meaning.slots().stream())
        .collect(Collectors.toCollection(LinkedHashSet::new));
  }

  /** Whether the word of a setting decides something in it, also by way of definitions. */
  public boolean dependsOnWord() {
    return meanings.values().stream()
        .anyMatch(
            meaning ->
                meaning instanceof PartMeaning.FixedWord
                    || meaning.texts().stream().anyMatch(Checked::dependsOnWord));
  }
}
