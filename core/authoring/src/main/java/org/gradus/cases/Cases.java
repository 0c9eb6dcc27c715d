package org.gradus.cases;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;

/**
 * The cases of a file, which are about one protocol.
 *
 * <pre>{@code
 * CaseReport report = Cases.read(file).run(library);
 * report.failures().forEach(System.out::println);
 * System.out.println(report.coverage());
 * }</pre>
 *
 * @param protocol the id of the protocol
 * @param cases the cases in the order of the file
 */
public record Cases(String protocol, List<Case> cases) {

  public Cases {
    requireNonNull(cases, "cases");
    requireNonNull(protocol, "protocol");
    cases = List.copyOf(cases);
  }

  /**
   * Reads a file of cases.
   *
   * @throws FileRefused with every problem found
   */
  public static Cases read(SourceFile file) {
    return CaseFile.read(file);
  }

  /**
   * Runs every case.
   *
   * @throws org.gradus.diagnostic.NotFound when the library has no such protocol
   */
  public CaseReport run(Library library) {
    List<Failure> failures = new ArrayList<>();
    Coverage coverage = Coverage.of(library.protocol(protocol), Set.of(), Set.of(), Set.of());
    for (Case one : cases) {
      CaseReport report = one.run(library);
      failures.addAll(report.failures());
      coverage = coverage.and(report.coverage());
    }
    return new CaseReport(failures, coverage);
  }
}
