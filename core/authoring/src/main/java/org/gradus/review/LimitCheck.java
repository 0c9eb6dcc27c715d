package org.gradus.review;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Span;
import org.gradus.protocol.AuthorNotes.Usual;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Stage;
import org.gradus.rule.Compared;
import org.gradus.rule.Formula;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.syntax.Expression.Relation;
import org.gradus.unit.Quantity;

/** Figures that rules compare with: too fine to be read, outside what is usual, with gaps. */
final class LimitCheck {

  private final Protocol protocol;
  private final List<ReviewFinding> found;

  LimitCheck(Protocol protocol, List<ReviewFinding> found) {
    this.protocol = protocol;
    this.found = found;
  }

  void look() {
    Map<Compared, String> seen = new LinkedHashMap<>();
    for (ProtocolParts.Grouped grouped : ProtocolParts.rules(protocol)) {
      for (Compared compared : ProtocolParts.comparisons(grouped.rule())) {
        boolean again =
            seen.keySet().stream()
                .anyMatch(
                    other ->
                        other.whole().equals(compared.whole())
                            && other.relation() == compared.relation());
        if (!again) {
          seen.put(compared, grouped.rule().id());
        }
      }
    }
    seen.forEach(this::look);
    bands(new ArrayList<>(seen.keySet()));
    new CeilingCheck(protocol, found).look();
    for (Stage stage : protocol.stages()) {
      for (Stage.Load load : stage.loads()) {
        ProtocolParts.constant(protocol, load.value())
            .ifPresent(
                value ->
                    unusual(
                        load.name(),
                        value,
                        stage.id(),
                        protocol.notes().place("stage " + stage.id()),
                        "the " + load.name().replace('_', ' ') + " of " + stage.id()));
      }
    }
  }

  private void look(Compared compared, String rule) {
    side(compared, compared.left(), compared.right(), rule);
    side(compared, compared.right(), compared.left(), rule);
  }

  private void side(Compared compared, Formula side, Formula figure, String rule) {
    Optional<Double> constant = ProtocolParts.constant(protocol, figure);
    if (constant.isEmpty()) {
      return;
    }
    ProtocolParts.signal(protocol, side)
        .ifPresent(
            signal -> {
              String what =
                  rule + " compares " + side.text() + " with " + figure.text() + ", which";
              unusual(signal, constant.get(), rule, compared.whole(), what);
            });
    changing(side)
        .ifPresent(signal -> narrow(signal, Math.abs(constant.get()), compared.whole(), rule, ""));
  }

  // A difference of two readings of one signal.
  private Optional<String> changing(Formula side) {
    List<String> read =
        side.demands().stream()
            .filter(demand -> demand.aspect() == Aspect.EARLIER)
            .map(Demand::subject)
            .toList();
    boolean bothOfOne =
        read.size() == 1
            && side.demands().size() == 2
            && side.demands().stream().allMatch(demand -> demand.subject().equals(read.get(0)));
    return bothOfOne ? Optional.of(read.get(0)) : Optional.empty();
  }

  private void narrow(String signal, double band, Span where, String rule, String text) {
    double step = Grain.step(protocol, signal);
    if (band < step && !Quantity.same(band, step)) {
      Demand demand = Demand.value(signal, protocol.instruments().signal(signal).type());
      found.add(
          ReviewFinding.of(
              Check.NARROW_BAND,
              rule,
              where,
              "a band of "
                  + shown(demand, band)
                  + " is narrower than the step of "
                  + shown(demand, step)
                  + " to which "
                  + signal
                  + " is read"
                  + text,
              "two readings that are truly alike can differ by " + shown(demand, step)));
    }
  }

  private String shown(Demand demand, double value) {
    var kind = ((org.gradus.unit.Type.Measure) demand.type()).kind();
    return Quantity.ofBase(value, Grain.unit(protocol, demand, kind)).rounded(2).toString();
  }

  private void unusual(String name, double value, String about, Span where, String what) {
    Usual usual = protocol.notes().usual().get(name);
    if (usual == null) {
      return;
    }
    double low = usual.range().low().base();
    double high = usual.range().high().base();
    if (value < low || value > high) {
      String figure = Quantity.ofBase(value, usual.range().low().unit()).rounded(2).toString();
      found.add(
          ReviewFinding.of(
              Check.UNUSUAL_FIGURE,
              about,
              where,
              what + " is unusual: it is " + figure + ", outside " + usual.range(),
              "usual by " + usual.source()));
    }
  }

  /** A class written as {@code x between a and b}. */
  private record Band(Span where, String subject, double low, double high) {
    private double width() {
      return high - low;
    }
  }

  private void bands(List<Compared> all) {
    List<Band> bands = new ArrayList<>();
    for (Compared low : all) {
      if (low.relation() == Relation.AT_LEAST) {
        all.stream()
            .filter(high -> high.relation() == Relation.AT_MOST)
            .filter(high -> high.whole().equals(low.whole()))
            .findFirst()
            .flatMap(high -> band(low, high))
            .ifPresent(bands::add);
      }
    }
    bands.sort(Comparator.comparing(Band::subject).thenComparing(Band::low));
    for (int i = 0; i < bands.size(); i++) {
      Band band = bands.get(i);
      Optional<String> signal = Optional.of(band.subject()).filter(this::isSignal);
      signal.ifPresent(name -> narrow(name, band.width(), band.where(), band.subject(), ""));
      if (i + 1 < bands.size() && bands.get(i + 1).subject().equals(band.subject())) {
        gap(band, bands.get(i + 1));
      }
    }
  }

  private boolean isSignal(String name) {
    return protocol.instruments().signals().containsKey(name);
  }

  private Optional<Band> band(Compared low, Compared high) {
    Optional<Double> from = ProtocolParts.constant(protocol, low.right());
    Optional<Double> to = ProtocolParts.constant(protocol, high.right());
    return from.isPresent() && to.isPresent()
        ? Optional.of(new Band(low.whole(), low.left().text(), from.get(), to.get()))
        : Optional.empty();
  }

  // A wide gap is meant; one that is narrower than either class lies between printed whole numbers.
  private void gap(Band band, Band next) {
    double gap = next.low() - band.high();
    boolean isGap = gap > 0 && !Quantity.same(next.low(), band.high());
    if (isGap && gap < Math.min(band.width(), next.width())) {
      String middle = Quantity.plain((band.high() + next.low()) / 2);
      found.add(
          ReviewFinding.of(
              Check.CLASS_GAP,
              band.subject(),
              next.where(),
              band.subject()
                  + " has no class between "
                  + band.where().text()
                  + " and "
                  + next.where().text(),
              band.subject() + " " + middle));
    }
  }
}
