package org.gradus.jackson;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.JsonDeserializer;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.JsonSerializer;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializerProvider;
import com.fasterxml.jackson.databind.jsontype.TypeDeserializer;
import com.fasterxml.jackson.databind.jsontype.TypeSerializer;
import java.io.IOException;
import java.util.Optional;
import org.gradus.diagnostic.GradusException;

/**
 * A type with its form in JSON, as Jackson writes and reads it.
 *
 * @param type the type, whose subtypes have the same form
 * @param write its text of JSON
 * @param read what a text says; empty for what is only written
 */
record Bound<T>(Class<T> type, Writer<T> write, Optional<Reader<T>> read) {

  // It only goes between texts and trees, for which nothing is set.
  private static final ObjectMapper PLAIN = new ObjectMapper();

  /** The text of a value. */
  interface Writer<T> {
    String write(T value);
  }

  /** The value of a text. */
  interface Plain<T> {
    T read(String json);
  }

  /** The value of a text, which is also there as a tree. */
  interface Reader<T> {
    T read(JsonNode tree, String json);
  }

  JsonSerializer<T> serializer() {
    return new JsonSerializer<>() {
      // Token by token, so that it goes into trees and other formats too.
      @Override
      public void serialize(T value, JsonGenerator out, SerializerProvider provider)
          throws IOException {
        try (JsonParser text = PLAIN.createParser(write.write(value))) {
          text.nextToken();
          out.copyCurrentStructure(text);
        }
      }

      // The form says by itself of what kind a value is.
      @Override
      public void serializeWithType(
          T value, JsonGenerator out, SerializerProvider provider, TypeSerializer typed)
          throws IOException {
        serialize(value, out, provider);
      }
    };
  }

  /** Reads a value of the type, or of one of its subtypes. */
  JsonDeserializer<Object> deserializer(Class<?> wanted) {
    return new JsonDeserializer<>() {
      @Override
      public Object deserialize(JsonParser in, DeserializationContext context) throws IOException {
        JsonNode tree = PLAIN.readTree(in);
        try {
          T value =
              read.orElseThrow(
                      () ->
                          JsonMappingException.from(
                              in, "A " + wanted.getSimpleName() + " is only written here."))
                  .read(tree, PLAIN.writeValueAsString(tree));
          if (!wanted.isInstance(value)) {
            throw JsonMappingException.from(
                in, "This is a " + value.getClass() + ", not a " + wanted + ".");
          }
          return value;
        } catch (GradusException refused) {
          throw JsonMappingException.from(in, refused.getMessage(), refused);
        }
      }

      @Override
      public Object deserializeWithType(
          JsonParser in, DeserializationContext context, TypeDeserializer typed)
          throws IOException {
        return deserialize(in, context);
      }
    };
  }
}
