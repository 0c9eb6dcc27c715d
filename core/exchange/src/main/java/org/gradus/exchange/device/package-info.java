/**
 * Messages of heart rate straps, cuffs, treadmills and bikes that follow the open Bluetooth
 * services heart rate (0x180D), blood pressure (0x1810) and fitness machine (0x1826): from bytes to
 * values and back.
 *
 * <pre>{@code
 * HeartRateMessage message = HeartRateMessage.decode(bytes);
 * message.reading().ifPresent(reading -> session.record(now, reading));
 * }</pre>
 *
 * <p>Everything here is a function from values to values: the package opens no connection and sends
 * nothing. A payload that is too short, or that cannot be, throws {@link
 * org.gradus.exchange.device.PayloadRefused} and nothing else. Fields that later versions of a
 * service add behind known ones are skipped.
 *
 * <p><b>No machine is started or changed by this library itself.</b> A host sends what a {@link
 * org.gradus.exchange.device.ControlCommand} encodes, after a trained person has decided so. <b>A
 * STOP is never only a message to a machine</b>: a message can be lost or refused, and a belt takes
 * time to slow down. The tester tells the person, uses the machine's own stop, and watches the
 * person.
 */
@NullMarked
package org.gradus.exchange.device;

import org.jspecify.annotations.NullMarked;
