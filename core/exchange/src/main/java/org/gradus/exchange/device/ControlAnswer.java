package org.gradus.exchange.device;

import static java.util.Objects.requireNonNull;

import java.util.Arrays;
import java.util.Optional;

/**
 * The answer of a machine to a {@link ControlCommand}.
 *
 * @param operation the operation that was asked for
 * @param result what became of it; anything but {@link Result#SUCCESS} means that nothing was set
 */
public record ControlAnswer(int operation, Result result) {

  private static final int ANSWER = 0x80;

  /** What became of a request. */
  public enum Result {
    /** The machine has taken the request; its load still has to be reached. */
    SUCCESS(1),
    /** The machine does not know the operation. */
    NOT_SUPPORTED(2),
    /** The machine cannot set that value. */
    INVALID_VALUE(3),
    /** The machine failed to do it. */
    FAILED(4),
    /** The host has no control of the machine: ask for it first. */
    NOT_PERMITTED(5);

    private final int number;

    Result(int number) {
      this.number = number;
    }

    private static Optional<Result> of(int number) {
      return Arrays.stream(values()).filter(result -> result.number == number).findFirst();
    }
  }

  /**
   * An answer.
   *
   * @throws org.gradus.diagnostic.ValueRefused when the operation does not fit its field
   */
  public ControlAnswer {
    requireNonNull(result, "result");
    Width.U8.holding(operation, "an operation");
  }

  /**
   * Reads an answer.
   *
   * @throws PayloadRefused when it is too short, is no answer, or gives a result that does not
   *     exist
   */
  public static ControlAnswer decode(byte[] payload) {
    requireNonNull(payload, "payload");
    PayloadReader reader = new PayloadReader("control answer", payload);
    int first = reader.unsigned(1, "the mark of an answer");
    if (first != ANSWER) {
      throw reader.refused("begins with " + first + ", where an answer begins with 128");
    }
    int operation = reader.unsigned(1, "the operation");
    int number = reader.unsigned(1, "the result");
    // Other operations answer with values of their own behind the result.
    return Result.of(number)
        .map(result -> new ControlAnswer(operation, result))
        .orElseThrow(() -> reader.refused("gives result " + number + ", where there are 1 to 5"));
  }

  /** The bytes of this answer. */
  public byte[] encode() {
    return new byte[] {(byte) ANSWER, (byte) operation, (byte) result.number};
  }
}
