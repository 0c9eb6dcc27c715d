package org.gradus.session;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;

/**
 * Changed copies of immutable collections. A collection that stays the same is not copied, because
 * most events change little of a test's state.
 */
final class PersistentCollections {

  private PersistentCollections() {}

  static <K, V> Map<K, V> with(Map<K, V> map, K key, V value) {
    V old = map.get(key);
    if (value.equals(old)) {
      return map;
    }
    Map.Entry<K, V>[] entries = but(key, map, map.size() + (old == null ? 1 : 0));
    entries[entries.length - 1] = Map.entry(key, value);
    return Map.ofEntries(entries);
  }

  static <K, V> Map<K, V> without(Map<K, V> map, K key) {
    return map.containsKey(key) ? Map.ofEntries(but(key, map, map.size() - 1)) : map;
  }

  // The entries with another key, with room behind them.
  private static <K, V> Map.Entry<K, V>[] but(K key, Map<K, V> map, int size) {
    @SuppressWarnings({"unchecked", "rawtypes"})
    Map.Entry<K, V>[] entries = new Map.Entry[size];
    int place = 0;
    for (Map.Entry<K, V> entry : map.entrySet()) {
      if (!entry.getKey().equals(key)) {
        entries[place++] = entry;
      }
    }
    return entries;
  }

  static <K, V> Map<K, V> keeping(Map<K, V> map, Predicate<K> kept) {
    if (map.isEmpty()) {
      return map;
    }
    Map<K, V> copy = new HashMap<>(map);
    copy.keySet().removeIf(kept.negate());
    return copy.size() == map.size() ? map : Map.copyOf(copy);
  }

  /** All of the first, and what the second has, in the place of what the first had. */
  static <K, V> Map<K, V> and(Map<K, V> map, Map<K, V> newer) {
    if (newer.isEmpty()) {
      return map;
    }
    Map<K, V> copy = new HashMap<>(map);
    copy.putAll(newer);
    return Map.copyOf(copy);
  }

  static <T> Set<T> with(Set<T> set, T element) {
    if (set.contains(element)) {
      return set;
    }
    Set<T> copy = new HashSet<>(set);
    copy.add(element);
    return Set.copyOf(copy);
  }

  static <T> Set<T> without(Set<T> set, T element) {
    if (!set.contains(element)) {
      return set;
    }
    Set<T> copy = new HashSet<>(set);
    copy.remove(element);
    return Set.copyOf(copy);
  }

  static <T> List<T> with(List<T> list, T last) {
    List<T> copy = new ArrayList<>(list);
    copy.add(last);
    return List.copyOf(copy);
  }

  static <T> List<T> with(List<T> list, int place, T element) {
    List<T> copy = new ArrayList<>(list);
    copy.set(place, element);
    return List.copyOf(copy);
  }
}
