package padward.design;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.fabric.Fabric;

/** Places of vertices: the same before and after many questions, which an index answers. */
class RouteTreeTest {
    @ParameterizedTest
    @ValueSource(ints = {1, 2, 63, 64, 65, 200, 3_000})
    void everyVertexHasItsPlaceHoweverOftenOneAsks(int size) {
        Random random = new Random(size);
        Map<Integer, Integer> places = new HashMap<>();
        List<Integer> vertices = new ArrayList<>();
        RouteTree.Builder builder = null;
        while (vertices.size() < size) {
            int vertex = random.nextInt(Integer.MAX_VALUE);
            if (places.putIfAbsent(vertex, vertices.size()) != null) {
                continue;
            }
            if (vertices.isEmpty()) {
                builder = new RouteTree.Builder(vertex);
            } else {
                builder.add(vertices.get(random.nextInt(vertices.size())), vertex);
            }
            vertices.add(vertex);
        }
        RouteTree tree = builder.build();
        for (int i = 0; i < 5 * size + 200; i++) {
            int vertex =
                    random.nextInt(4) == 0
                            ? random.nextInt(Integer.MAX_VALUE)
                            : vertices.get(random.nextInt(size));
            assertThat(tree.placeOf(vertex))
                    .as("question " + i)
                    .isEqualTo(places.getOrDefault(vertex, Fabric.NOTHING));
        }
    }
}
