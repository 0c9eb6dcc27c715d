/**
 * Tests as tables in CSV (RFC 4180): what came of a test for spreadsheets and statistics, and a
 * whole test out and in again, also one that was recorded on paper.
 *
 * <pre>{@code
 * Files.writeString(file, TestTable.write(session));
 * Session again = TestTable.read(Files.readString(file), library);
 * }</pre>
 *
 * <p>{@link org.gradus.exchange.table.TestTable} is complete: what is read again answers every
 * event as the session did. The {@link org.gradus.exchange.table.ResultTables} are for people and
 * statistics, and are not read again.
 */
@NullMarked
package org.gradus.exchange.table;

import org.jspecify.annotations.NullMarked;
