package org.gradus.examples.fleet;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.apache.flink.api.common.functions.OpenContext;
import org.apache.flink.api.common.functions.RichMapFunction;
import org.apache.flink.api.common.typeinfo.PrimitiveArrayTypeInfo;
import org.apache.flink.streaming.api.environment.StreamExecutionEnvironment;
import org.apache.flink.util.CloseableIterator;
import org.apache.flink.util.InstantiationUtil;
import org.gradus.bundled.Bundled;
import org.gradus.trial.PartTally;
import org.gradus.trial.Population;
import org.gradus.trial.Summary;
import org.gradus.trial.Trial;

/**
 * A trial whose people are shared out between tasks. Each task plays whole parts of the people and
 * hands on one tally for each; they are added up in the order of the people, so that the summary is
 * that of the same trial on one core, to the last digit.
 *
 * @param files the protocol
 * @param people how many people
 * @param seed the seed
 */
record FleetTrial(ProtocolFiles files, int people, long seed) {

  /** The trial, to be run here or to be put together from its parts. */
  Trial trial() {
    return Trial.of(files.library().protocol(files.id()), Population.read(Bundled.people()))
        .people(people)
        .seed(seed);
  }

  /** Runs it on a cluster. */
  Summary run(StreamExecutionEnvironment flink) throws Exception {
    Trial trial = trial();
    List<PartTally> tallies = new ArrayList<>();
    CloseableIterator<byte[]> parts =
        flink
            .fromSequence(0, trial.parts().size() - 1)
            .map(new PlayPart(files, people, seed))
            .returns(PrimitiveArrayTypeInfo.BYTE_PRIMITIVE_ARRAY_TYPE_INFO)
            .executeAndCollect();
    try {
      while (parts.hasNext()) {
        tallies.add(InstantiationUtil.deserializeObject(parts.next(), getClass().getClassLoader()));
      }
    } finally {
      parts.close();
    }
    return trial.summary(tallies);
  }

  /** Plays the part of a number. */
  static final class PlayPart extends RichMapFunction<Long, byte[]> {

    private static final long serialVersionUID = 1L;

    private final ProtocolFiles files;
    private final int people;
    private final long seed;
    private transient Trial trial;

    PlayPart(ProtocolFiles files, int people, long seed) {
      this.files = files;
      this.people = people;
      this.seed = seed;
    }

    @Override
    public void open(OpenContext context) {
      trial = new FleetTrial(files, people, seed).trial();
    }

    @Override
    public byte[] map(Long part) throws IOException {
      return InstantiationUtil.serializeObject(trial.tally(trial.parts().get(part.intValue())));
    }
  }
}
