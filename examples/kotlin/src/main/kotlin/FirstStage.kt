package org.gradus.examples.kotlin

import org.gradus.bundled.Bundled
import org.gradus.protocol.Person
import org.gradus.session.Readings.answer
import org.gradus.session.Readings.heartRate
import org.gradus.session.Readings.pressure
import org.gradus.session.Readings.rating
import org.gradus.session.Readings.resting
import org.gradus.session.Session
import org.gradus.session.Times
import org.gradus.session.Times.at
import org.gradus.session.Verdict
import org.gradus.unit.Quantities.hours
import org.gradus.unit.Quantities.kg

/** What to do, as a sentence. Without an `else`: a new verdict does not compile until it is dealt with. */
fun sentence(verdict: Verdict): String =
    when (verdict) {
      is Verdict.Ready -> "Begin with ${verdict.stage()}."
      is Verdict.Defer -> "Do not test today."
      is Verdict.Continue -> "Go on until ${Times.clock(verdict.until())}."
      is Verdict.Measure -> "Measure ${verdict.gaps().joinToString { it.subject() }}."
      is Verdict.Hold -> "Stay at this load until ${Times.clock(verdict.until())}."
      is Verdict.Change -> "Stay in ${verdict.stage()} at another load."
      is Verdict.Advance -> "Go on to ${verdict.stage()}."
      is Verdict.Finish -> "The test is complete: go to recovery."
      is Verdict.Stop -> "Stop now."
      is Verdict.End -> "Recovery is over."
      is Verdict.NotRecovered -> "Keep watching, and get advice."
      is Verdict.Over -> "The test is over."
    }

/** The first stage of a walk of an invented person; each step gives what to do next. */
fun firstStage(): List<String> {
  val protocol = Bundled.library("graded-walk-standard").protocol("graded-walk-standard")
  val person = Person.builder().age(41).sex(Person.Sex.FEMALE).mass(kg(68.0)).cleared(true).lowersHeartRate(false).build()
  val session = Session.open(protocol, person)
  val ready =
      session.record(
          at("0:00"),
          answer("unwell_today", false),
          answer("recent_event", false),
          answer("pregnant", false),
          answer("since_meal", hours(4.0)),
          answer("since_stimulant", hours(5.0)),
          resting(heartRate(66.0)),
          resting(pressure(118.0, 74.0)))
  val begun = session.follow(ready)
  session.record(at("1:00"), heartRate(97.0))
  session.record(at("2:00"), heartRate(104.0))
  session.record(at("2:50"), pressure(136.0, 76.0), rating(9.0, "rpe_6_20"))
  val end = session.record(at("3:00"), heartRate(106.0))
  return listOf(ready, begun, end).map { sentence(it.verdict()) }
}

fun main() {
  println("Gradus gives advice to a trained person who decides. It is not a medical device.")
  firstStage().forEach(::println)
}
