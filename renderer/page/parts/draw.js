// Draws the frame: Σ matrix · layer, then the display curve or the stops map. On the graphics card if
// there is WebGL 2, else on a plain canvas. Both have layer(), draw(), finish() and pixels(). The mode
// of draw() is false or 0 for the picture, true or 1 for the stops map, 2 for shadows and whites. With
// a stride it draws only every so manyth pixel of every so manyth row, which is faster. While one lamp
// is dimmed, the light of the others is added up once.

// Which layers change from draw to draw. `still` are the others, whose sum can be kept.
function makeStillLayers() {
  let kept = null; // { matrices, stride, moving }: `matrices` are those of the last draw
  const isSame = (a, b) => a.every((x, i) => x === b[i]);
  return {
    forget: () => (kept = null),
    // Returns { isNew, still, moving }: whether the sum must be made anew, and the layers' numbers.
    of(matrices, stride) {
      const numbers = [...matrices.keys()];
      const last = kept && kept.matrices.length === matrices.length ? kept : null;
      const changed = last ? numbers.filter((g) => !isSame(matrices[g], last.matrices[g])) : [];
      const isNew = !last || last.stride !== stride || changed.some((g) => !last.moving.includes(g));
      const moving = isNew ? changed : last.moving;
      kept = { matrices: matrices.map((m) => [...m]), stride, moving };
      return { isNew, moving, still: numbers.filter((g) => !moving.includes(g)) };
    },
  };
}

const kVertexShader = `#version 300 es
void main() {
  vec2 corner = vec2(float(gl_VertexID & 1), float(gl_VertexID >> 1));
  gl_Position = vec4(4.0 * corner - 1.0, 0.0, 1.0);
}`;

const kFragmentShader = `#version 300 es
precision highp float;
precision highp sampler2DArray;
uniform sampler2DArray light;
uniform sampler2D matrices;  // for each layer that is added: three columns, then its number
uniform int layers;
uniform sampler2D kept;  // a sum of other layers
uniform bool addsKept;
uniform ivec2 size;
uniform ivec2 shown;  // pixels of the canvas: each stands for stride by stride of the film's
uniform int stride;
uniform vec3 luminance;
uniform float logGrey;
uniform int mode;  // 0 picture, 1 stops map, 2 shadows and whites, 3 the sum itself
out vec4 colour;
${kPictureGlsl}
vec3 lightAt(ivec2 at) {
  vec3 sum = addsKept ? texelFetch(kept, at, 0).rgb : vec3(0.0);
  for (int g = 0; g < layers; ++g) {
    int layer = int(texelFetch(matrices, ivec2(4 * g + 3, 0), 0).r);
    vec3 c = texelFetch(light, ivec3(at, layer), 0).rgb;
    sum += c.r * texelFetch(matrices, ivec2(4 * g, 0), 0).rgb +
           c.g * texelFetch(matrices, ivec2(4 * g + 1, 0), 0).rgb +
           c.b * texelFetch(matrices, ivec2(4 * g + 2, 0), 0).rgb;
  }
  return sum;
}
float stopsAt(ivec2 at) {
  vec3 c = lightAt(clamp(at, ivec2(0), size - 1));
  return log2(max(dot(luminance, c), 1e-9)) - logGrey;
}
void main() {
  if (mode == 3) {
    colour = vec4(lightAt(ivec2(gl_FragCoord.xy)), 1.0);
    return;
  }
  ivec2 at = stride * ivec2(int(gl_FragCoord.x), shown.y - 1 - int(gl_FragCoord.y));
  if (mode == 0) {
    colour = vec4(showPicture(lightAt(at)), 1.0);
    return;
  }
  float here = stopsAt(at);
  if (mode == 2) {
    colour = vec4(showLimits(showPicture(lightAt(at)), here, at / stride), 1.0);
    return;
  }
  float step = floor(here);
  bool line = step != floor(stopsAt(at + ivec2(stride, 0))) || step != floor(stopsAt(at + ivec2(0, stride)));
  vec3 shown = showStops(here);
  colour = vec4(line ? 0.55 * shown : shown, 1.0);
}`;

function makeProgram(gl) {
  const program = gl.createProgram();
  for (const [type, text] of [[gl.VERTEX_SHADER, kVertexShader], [gl.FRAGMENT_SHADER, kFragmentShader]]) {
    const shader = gl.createShader(type);
    gl.shaderSource(shader, text);
    gl.compileShader(shader);
    gl.attachShader(program, shader);
  }
  gl.linkProgram(program);
  return gl.getProgramParameter(program, gl.LINK_STATUS) ? program : null;
}

function makeTexture(gl, unit, target) {
  gl.activeTexture(gl.TEXTURE0 + unit);
  gl.bindTexture(target, gl.createTexture());
  for (const filter of [gl.TEXTURE_MIN_FILTER, gl.TEXTURE_MAG_FILTER]) {
    gl.texParameteri(target, filter, gl.NEAREST);
  }
}

// A picture of floats to draw a sum of layers to, as texture 2; null if the card has none.
function makeKeptSum(gl, film) {
  makeTexture(gl, 2, gl.TEXTURE_2D);
  if (!gl.getExtension("EXT_color_buffer_float")) return null;
  gl.texStorage2D(gl.TEXTURE_2D, 1, gl.RGBA32F, film.width, film.height);
  const framebuffer = gl.createFramebuffer();
  gl.bindFramebuffer(gl.FRAMEBUFFER, framebuffer);
  gl.framebufferTexture2D(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0, gl.TEXTURE_2D, gl.getParameter(gl.TEXTURE_BINDING_2D), 0);
  const isWhole = gl.checkFramebufferStatus(gl.FRAMEBUFFER) === gl.FRAMEBUFFER_COMPLETE;
  gl.bindFramebuffer(gl.FRAMEBUFFER, null);
  return isWhole ? framebuffer : null;
}

// Null if there is no WebGL 2 or it cannot hold the film.
function makeCardDrawer(canvas, film) {
  const gl = canvas.getContext("webgl2", { alpha: false, antialias: false, preserveDrawingBuffer: true });
  if (!gl || film.layers.length > gl.getParameter(gl.MAX_ARRAY_TEXTURE_LAYERS)) return null;
  if (Math.max(film.width, film.height) > gl.getParameter(gl.MAX_TEXTURE_SIZE)) return null;
  const program = makeProgram(gl);
  if (!program) return null;
  gl.useProgram(program);
  gl.pixelStorei(gl.UNPACK_ALIGNMENT, 1);
  gl.disable(gl.DITHER);
  makeTexture(gl, 0, gl.TEXTURE_2D_ARRAY);
  gl.texStorage3D(gl.TEXTURE_2D_ARRAY, 1, gl.RGB16F, film.width, film.height, film.layers.length);
  if (gl.getError() !== gl.NO_ERROR) return null;
  makeTexture(gl, 1, gl.TEXTURE_2D);
  const place = (name) => gl.getUniformLocation(program, name);
  gl.uniform1i(place("light"), 0);
  gl.uniform1i(place("matrices"), 1);
  gl.uniform2i(place("size"), film.width, film.height);
  gl.uniform3fv(place("luminance"), film.luminance);
  gl.uniform1f(place("logGrey"), film.log_grey);
  const keptPlace = place("kept");
  const kept = makeKeptSum(gl, film);
  gl.uniform1i(keptPlace, 2);
  const stillLayers = makeStillLayers();
  const modePlace = place("mode");
  const layersPlace = place("layers");
  const addsKeptPlace = place("addsKept");
  const setLayers = (matrices, numbers) => {
    const columns = new Float32Array(16 * Math.max(1, numbers.length));
    numbers.forEach((g, i) => {
      for (let c = 0; c < 3; c++) {
        for (let row = 0; row < 3; row++) columns[16 * i + 4 * c + row] = matrices[g][3 * row + c];
      }
      columns[16 * i + 12] = g;
    });
    gl.activeTexture(gl.TEXTURE1);
    gl.texImage2D(gl.TEXTURE_2D, 0, gl.RGBA32F, columns.length / 4, 1, 0, gl.RGBA, gl.FLOAT, columns);
    gl.uniform1i(layersPlace, numbers.length);
  };
  const drawSum = () => {
    gl.bindFramebuffer(gl.FRAMEBUFFER, kept);
    gl.uniform1i(keptPlace, 1); // not what is drawn to
    gl.uniform1i(modePlace, 3);
    gl.uniform1i(addsKeptPlace, 0);
    gl.viewport(0, 0, film.width, film.height);
    gl.drawArrays(gl.TRIANGLES, 0, 3);
    gl.bindFramebuffer(gl.FRAMEBUFFER, null);
    gl.uniform1i(keptPlace, 2);
  };
  const shownPlace = place("shown");
  const stridePlace = place("stride");
  return {
    kind: "webgl2",
    layer(g, halves) {
      gl.activeTexture(gl.TEXTURE0);
      stillLayers.forget();
      gl.texSubImage3D(gl.TEXTURE_2D_ARRAY, 0, 0, 0, g, film.width, film.height, 1, gl.RGB, gl.HALF_FLOAT, halves);
    },
    draw(matrices, mode, stride = 1) {
      const [width, height] = fitCanvas(canvas, film, stride);
      const { isNew, still, moving } = stillLayers.of(matrices, 1);
      const isKept = kept && moving.length > 0;
      if (isKept && isNew) {
        setLayers(matrices, still);
        drawSum();
      }
      setLayers(matrices, isKept ? moving : [...matrices.keys()]);
      gl.uniform1i(addsKeptPlace, isKept);
      gl.uniform1i(modePlace, Number(mode));
      gl.uniform2i(shownPlace, width, height);
      gl.uniform1i(stridePlace, stride);
      gl.viewport(0, 0, width, height);
      gl.drawArrays(gl.TRIANGLES, 0, 3);
    },
    // Until the card has drawn it.
    finish() {
      gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, new Uint8Array(4));
    },
    pixels() {
      const flipped = new Uint8Array(4 * canvas.width * canvas.height);
      gl.readPixels(0, 0, canvas.width, canvas.height, gl.RGBA, gl.UNSIGNED_BYTE, flipped);
      const pixels = new Uint8Array(flipped.length);
      const row = 4 * canvas.width;
      for (let y = 0; y < canvas.height; y++) {
        pixels.set(flipped.subarray(y * row, (y + 1) * row), (canvas.height - 1 - y) * row);
      }
      return pixels;
    },
  };
}

// The canvas's size in pixels.
function fitCanvas(canvas, film, stride) {
  const size = [Math.max(1, Math.floor(film.width / stride)), Math.max(1, Math.floor(film.height / stride))];
  if (canvas.width !== size[0] || canvas.height !== size[1]) [canvas.width, canvas.height] = size;
  return size;
}

function makeCanvasDrawer(canvas, film) {
  const context = canvas.getContext("2d");
  let image = context.createImageData(film.width, film.height);
  const layers = [];
  const values = makeHalfTable();
  const sum = new Float32Array(3 * film.width * film.height);
  const stillSum = new Float32Array(sum.length);
  const stillLayers = makeStillLayers();
  // Of the canvas's pixels: sum[3 at …] is pixel at of the canvas.
  const addLayer = (sum, halves, m, [width, height], stride) => {
    for (let y = 0, to = 0; y < height; y++) {
      let from = 3 * y * stride * film.width;
      for (let x = 0; x < width; x++, to += 3, from += 3 * stride) {
        const r = values[halves[from]];
        const g = values[halves[from + 1]];
        const b = values[halves[from + 2]];
        sum[to] += m[0] * r + m[1] * g + m[2] * b;
        sum[to + 1] += m[3] * r + m[4] * g + m[5] * b;
        sum[to + 2] += m[6] * r + m[7] * g + m[8] * b;
      }
    }
  };
  const addUp = (matrices, size, stride) => {
    const add = (to, numbers) => {
      for (const g of numbers) {
        if (layers[g] && matrices[g].some((x) => x !== 0)) addLayer(to, layers[g], matrices[g], size, stride);
      }
    };
    const { isNew, still, moving } = stillLayers.of(matrices, stride);
    if (isNew) add(stillSum.fill(0), still);
    sum.set(stillSum.subarray(0, 3 * size[0] * size[1]));
    add(sum, moving);
  };
  const stopsAt = (i) => {
    const y = film.luminance[0] * sum[3 * i] + film.luminance[1] * sum[3 * i + 1] + film.luminance[2] * sum[3 * i + 2];
    return Math.log2(Math.max(y, 1e-9)) - film.log_grey;
  };
  return {
    kind: "canvas",
    layer(g, halves) {
      layers[g] = halves;
      stillLayers.forget();
    },
    draw(matrices, mode, stride = 1) {
      const size = fitCanvas(canvas, film, stride);
      if (image.width !== size[0] || image.height !== size[1]) image = context.createImageData(...size);
      addUp(matrices, size, stride);
      for (let i = 0; i < size[0] * size[1]; i++) {
        if (Number(mode) === 1) {
          showStops(stopsAt(i), image.data, 4 * i);
          continue;
        }
        showPicture(sum[3 * i], sum[3 * i + 1], sum[3 * i + 2], image.data, 4 * i);
        if (mode === 2) showLimits(stopsAt(i), i % size[0], Math.floor(i / size[0]), image.data, 4 * i);
      }
      context.putImageData(image, 0, 0);
    },
    finish() {},
    pixels() {
      return new Uint8Array(image.data);
    },
  };
}

function makeDrawer(canvas, film, withoutCard) {
  canvas.width = film.width;
  canvas.height = film.height;
  return (withoutCard ? null : makeCardDrawer(canvas, film)) || makeCanvasDrawer(freshCanvas(canvas), film);
}

// A canvas that has had one kind of context cannot get another.
function freshCanvas(canvas) {
  const fresh = canvas.cloneNode(false);
  canvas.replaceWith(fresh);
  return fresh;
}
