/**
 * A kit for whoever tests protocols: arbitraries of jqwik in {@link org.gradus.testkit.Any}, the
 * laws of a session in {@link org.gradus.testkit.Laws}.
 *
 * <pre>{@code
 * class MyWalkTest {
 *   static final Protocol WALK = Library.load(Path.of("protocols")).protocol("my-walk");
 *
 *   @Provide
 *   Arbitrary<TestScript> tests() {
 *     return Any.tests(WALK);
 *   }
 *
 *   @Property
 *   void everyTestKeepsTheLaws(@ForAll("tests") TestScript test) {
 *     Laws.all().check(test);
 *   }
 * }
 * }</pre>
 *
 * <p>A {@link org.gradus.testkit.TestScript} is a test step by step. When a law is broken, jqwik
 * leaves steps out as long as it stays broken, and a {@link org.gradus.testkit.LawBroken} tells the
 * law, the protocol, the person, and every step with its answer. {@code @Property(seed = "...")}
 * with the seed that jqwik prints makes up the same tests again.
 *
 * <p>A law of one's own is a {@link org.gradus.testkit.Law}. The kit needs jqwik and nothing else
 * beside Gradus. Whatever passes here is no proof that a protocol is safe for a person: a trained
 * person decides.
 */
@NullMarked
package org.gradus.testkit;

import org.jspecify.annotations.NullMarked;
