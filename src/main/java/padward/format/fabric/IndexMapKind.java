package padward.format.fabric;

import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.pair;
import static padward.format.form.Kinds.whole;

import com.google.gson.stream.JsonToken;
import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.fabric.FabricLimits;
import padward.fabric.pattern.IndexMap;
import padward.fabric.pattern.IndexPair;
import padward.fabric.pattern.SwitchBoxTopology;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.Kind;
import padward.format.form.Pair;
import padward.format.form.Schema;
import padward.format.json.EnumWords;
import padward.format.json.JsonIn;
import padward.format.source.Nearest;

/** Which members of two groups meet: a word, or an object with numbers. */
final class IndexMapKind implements Kind<IndexMap> {
    private static final Map<String, IndexMap> BY_WORD = byWord();

    private final Form<IndexMap> counted = counted();

    private static Map<String, IndexMap> byWord() {
        Map<String, IndexMap> all = new LinkedHashMap<>();
        all.put("same", new IndexMap.Same());
        all.put("mirror", new IndexMap.Mirror());
        all.put("all", new IndexMap.All());
        for (SwitchBoxTopology topology : SwitchBoxTopology.values()) {
            all.put(EnumWords.of(topology), new IndexMap.ByTopology(topology));
        }
        return all;
    }

    @Override
    public IndexMap read(JsonIn in) throws BadInput {
        if (in.peek() == JsonToken.BEGIN_OBJECT) {
            return counted.read(in);
        }
        String word = in.word();
        IndexMap map = BY_WORD.get(word);
        if (map == null) {
            throw in.fault(
                    "one of " + String.join(", ", BY_WORD.keySet()) + ", or an object",
                    Nearest.describe(word, BY_WORD.keySet().stream()));
        }
        return map;
    }

    @Override
    public void write(JsonWriter out, IndexMap map) throws IOException {
        Optional<String> word =
                BY_WORD.keySet().stream().filter(w -> BY_WORD.get(w).equals(map)).findFirst();
        if (word.isPresent()) {
            out.value(word.get());
        } else {
            counted.write(out, map);
        }
    }

    @Override
    public Schema schema() {
        return Schema.oneOf(
                List.of(Schema.oneWordOf(List.copyOf(BY_WORD.keySet())), counted.schema()));
    }

    private static Form<IndexMap> counted() {
        var map = new Fields<IndexMap>();
        var rotate =
                map.maybe(
                                "rotate",
                                whole(-FabricLimits.GROUP, FabricLimits.GROUP),
                                m ->
                                        m instanceof IndexMap.Rotate turned
                                                ? OptionalInt.of(turned.places())
                                                : OptionalInt.empty())
                        .means("places that the second group is turned by");
        var spread =
                map.maybe(
                                "spread",
                                whole(1, FabricLimits.GROUP),
                                m ->
                                        m instanceof IndexMap.Spread each
                                                ? OptionalInt.of(each.each())
                                                : OptionalInt.empty())
                        .means("how many of the first group each of the second meets");
        var shift =
                map.maybe(
                                "shift",
                                whole(-FabricLimits.GROUP, FabricLimits.GROUP),
                                m ->
                                        m instanceof IndexMap.Spread each
                                                ? OptionalInt.of(each.shift())
                                                : OptionalInt.empty())
                        .means("by how much those move from one to the next; otherwise 0");
        var pairs =
                map.optional(
                                "pairs",
                                list(indexPair()),
                                List.of(),
                                m ->
                                        m instanceof IndexMap.Pairs listed
                                                ? listed.pairs()
                                                : List.of())
                        .means("the pairs that meet");
        map.require(
                Schema.oneOf(
                                List.of(
                                        Schema.having(rotate),
                                        Schema.having(spread),
                                        Schema.having(pairs)))
                        .and(Schema.onlyWith(shift, spread)));
        return map.makes(
                in -> {
                    long kinds = Stream.of(rotate, spread, pairs).filter(f -> f.isGiven()).count();
                    if (kinds != 1) {
                        throw in.fault("one of rotate, spread, pairs", kinds + " of them");
                    }
                    if (shift.isGiven() && !spread.isGiven()) {
                        throw in.fault("\"shift\" only together with \"spread\"", "it alone");
                    }
                    if (rotate.isGiven()) {
                        return new IndexMap.Rotate(rotate.get().getAsInt());
                    }
                    return spread.isGiven()
                            ? new IndexMap.Spread(spread.get().getAsInt(), shift.get().orElse(0))
                            : new IndexMap.Pairs(pairs.get());
                });
    }

    private static Kind<IndexPair> indexPair() {
        return pair(whole(0, Integer.MAX_VALUE))
                .as(
                        (in, pair) -> new IndexPair(pair.first(), pair.second()),
                        pair -> new Pair(pair.from(), pair.to()));
    }
}
