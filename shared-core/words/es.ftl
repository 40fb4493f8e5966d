# What Sweepbell says, in Spanish: tú, short, concrete. Spanish of Spain where countries differ.
#
# One word a thing: taller (shop), sala (room), persona responsable (steward), acompañante (buddy), salida (out-by),
# barrido (sweep), toque (bell), última chispa (last spark), vigilancia de incendio (fire watch), trabajo en caliente (hot
# work), fuera de servicio (tagged out), etiqueta (tag), tarea (chore), ronda (round), autorización (sign-off), reglamento
# (rulebook), registro (log), servidor (hub), tono (shade). Clock times stand without an article, which would change
# with the hour.


## The page before the app has started (index.html shows the English; start.js the others)

page-opening = Abriendo. Tras la primera visita no hace falta red.
page-failed = Sweepbell no ha podido abrirse en este navegador. Recarga la página; si no basta, valen entretanto las normas en papel del taller.

## Lengths of time and numbers

time-minutes-short = { NUMBER($minutes) } min
time-hours-short = { NUMBER($hours) } h { $minutes }
time-days = { $days ->
    [one] { $days } día
    [many] { $days } de días
   *[other] { $days } días
}
time-just-now = ahora mismo
time-ago = hace { $length }
time-decimal = { $whole },{ $part }

## The places, and what surrounds every screen

frame-app = Sweepbell
frame-places = Lugares
frame-door = Puerta
frame-bench = Banco
frame-sweep = Barrido
frame-room = Sala
frame-book = Libro
frame-back = Atrás
frame-read = Entendido
frame-no-session = Aún no hay sesión
frame-no-session-bench = Cuando estés dentro, aquí están tus máquinas, con el tiempo que falta para barrer y para la última chispa.
frame-no-session-sweep = Cuando estés dentro, aquí está el cierre, tarea por tarea, en el mejor orden.
frame-to-door = A la puerta
frame-demo = { $shop } es un taller de demostración: su gente y su registro son inventados.
frame-book-with = Libro +{ NUMBER($waiting) }

## What comes after the first picture, until it is here

later-moment = Un momento
later-failed = Esta parte de la aplicación no ha llegado.
later-next = Lo que has confirmado está guardado, y tu sesión sigue. Inténtalo otra vez donde haya red.

## Before the app can be used

gate-starting = Leyendo el registro de este teléfono
gate-resuming = Tu sesión sigue
gate-out-by = Salida
gate-sweep-from = Barrer desde
gate-no-storage = Este navegador no guarda nada aquí, así que no se puede registrar ninguna sesión.
gate-no-storage-next = Abre Sweepbell en una ventana normal, no privada. Entretanto valen las normas en papel del taller.
gate-no-key = No se puede leer la clave de este teléfono, así que no se puede firmar nada.
gate-no-key-next = Cierra otras pestañas y recarga. Si no basta, pide a la persona responsable que este teléfono vuelva a unirse.
gate-join = Únete al taller
gate-join-why = Una sola vez, con red. Después todo funciona sin ella.
gate-join-code = Código de entrada
gate-join-hint = Una persona responsable te lo da.
gate-join-act = Unirme
gate-join-scan = Mejor escanearlo
gate-checking = Preguntando al taller
gate-who = { $shop }. ¿Quién eres?
gate-who-why = Elige tu propio nombre: desde ahora este teléfono firma por ti.
gate-is-it = { $shop }. ¿Eres { $name }?
gate-for-why = Este código es solo para { $name } y sirve una vez. Desde ahora este teléfono firma por { $name }.
gate-for-replaces = El teléfono al que sustituye se retira en cuanto este haya entrado.
gate-join-as = Entrar como { $name }
gate-stop-joining = Atrás
gate-fetching = Trayendo las normas del taller
gate-offline-next = Para unirse hace falta red esta vez. Compruébala y vuelve a intentarlo.
gate-again = Intentar otra vez

## Arriving

door-title = En la puerta
door-teach = Escanea el código de la puerta en la que estás. Se te preguntan unas pocas cosas, una a una.
door-scan = Escanear el código de la puerta
door-pick = O elige la sala
door-empty = que se sepa, no hay nadie
door-inside = { $people ->
    [one] 1 persona dentro
    [many] { $people } de personas dentro
   *[other] { $people } personas dentro
}
door-step = { $room }. { NUMBER($step) } de { NUMBER($of) }
door-yes = Sí, así es
door-not-today = Ahora no
door-out-by = ¿A qué hora tienes que estar fuera?
door-room = { $room }. Ya casi.
door-in-hours = en { $length }
door-earlier = 15 min antes
door-later = 15 min después
door-begin = Empezar, salida { $clock }
door-in-room = Estás en: { $room }
door-in-teach = ¿Te vas del todo? Primero barre y sal desde allí. El código de la puerta es para llegar.
door-to-bench = Al banco
door-be-buddy = Escanear para acompañar
door-barred = Todavía no
door-cautions = Lo que esta app no puede hacer

## Working

bench-title = Banco, { $room }
bench-sweep-in = Barrer desde { $clock }, en
bench-sweep-since = Había que barrer desde { $clock }, retraso
bench-sweep-soon = { $minutes ->
    [one] Falta 1 minuto para barrer, a las { $clock }.
   *[other] Faltan { $minutes } minutos para barrer, a las { $clock }.
}
bench-out-by-soon = { $minutes ->
    [one] Falta 1 minuto para tu salida, a las { $clock }.
   *[other] Faltan { $minutes } minutos para tu salida, a las { $clock }.
}
bench-min = min
bench-out-by = Salida
bench-move-it = cambiar
bench-move-out-by = Cambiar la salida
bench-out-by-cannot-be-kept = El trabajo en caliente acabó tarde. Con la vigilancia de incendio y el barrido se acaba más tarde que tu salida: { $free-at }.
bench-stay-and-move = Quédate a la vigilancia y cambia tu salida.
bench-free-at = Libre, si barres ahora
bench-not-proven = Son tantas tareas que este plan es bueno, pero no está probado que sea el más corto.
bench-start-sweep = Empezar a barrer
bench-machines = Máquinas
bench-news-old = Este teléfono supo del taller por última vez { $ago }. Si alguien ha etiquetado algo después, aquí no se sabe: mira la máquina.
bench-no-machines = En esta sala no hay máquinas. El trabajo a mano no se arranca; el barrido te espera igual.
bench-start = Arrancar
bench-stop = Parar
bench-why-not = ¿Por qué no?
bench-act-on = { $act }: { $machine }
bench-running = en marcha, { $length }
bench-needs-buddy = pide acompañante
bench-hot-work = trabajo en caliente
bench-pedal = pedal: cualquier pie la arranca
bench-covered = acompañante { $length } más
bench-uncovered = Ahora sin acompañante. Párala o vuelve a pedirlo.
bench-buddy = Te acompaña { $name }
bench-buddy-left = quedan { $length }
bench-no-buddy = Aún no te acompaña nadie. Algunas máquinas de aquí lo piden.
bench-ask-buddy = Pedir acompañante
bench-ask-again = Pedir otra vez
bench-wear = Ponte
bench-never = Quítate
bench-check = Comprueba
bench-material = ¿Qué material trabajas?
bench-refuses = Nunca en esta máquina: { $materials }.
bench-material-other = Ninguno de esos
bench-all-so = Todo en orden. Arrancar
bench-nothing-to-check = El reglamento no pide más para esta máquina. Revísala igual.
bench-crew-how-many = ¿Cuántas personas barréis?
bench-crew-why = Las máquinas en marcha cuentan como paradas. Apágalas antes.
bench-crew-one = Solo yo
bench-crew = Somos { NUMBER($count) }
bench-move-to = Salida { $clock }
bench-lapses = Lo que confirmaste en la puerta vale hasta { $clock }.

## Closing down

sweep-not-begun = Aún no se barre
sweep-preview = Esto es lo que espera al final, en el mejor orden.
sweep-title = Barrido, { $room }
sweep-with = También aquí: { $names }
sweep-last-out = Que se sepa, no hay nadie más, así que te tocan las últimas tareas de la sala.
sweep-crew-again = Otros limpian conmigo
sweep-done-by = Fin del barrido
sweep-all-done = Todo está hecho. Gracias.
sweep-no-chores = El reglamento no pone tareas aquí. Déjalo como te gustaría encontrarlo.
sweep-from = desde { $clock }
sweep-done-at = hecho { $clock }
sweep-after = después de: { $first }
sweep-hands = { $count ->
    [one] 1 persona
    [many] { $count } de personas
   *[other] { $count } personas
}
sweep-unattended = va solo
sweep-photo = Con foto
sweep-photo-of = Hecho, con foto: { $chore }
sweep-sparking = Sigue el trabajo en caliente. La vigilancia empieza cuando pare.
sweep-watch-until = Vigilancia de incendio hasta { $clock }
sweep-watch-why = ¿Por qué hasta entonces?
sweep-watch-how = Busca brasas con la vista y el olfato: debajo, detrás y en lo barrido.
sweep-watch-over = La vigilancia de incendio terminó: { $clock }.
sweep-walked = He recorrido el lugar
sweep-walked-ago = Último recorrido: { $ago }.
sweep-running = Aún en marcha: { $names }
sweep-running-next = Apaga lo que esté en marcha; al empezar a barrer cuenta como parado.
sweep-leave-clean = Lo dejo limpio
sweep-leave = Salir
sweep-leave-title = Antes de irte
sweep-missing-why = Puedes irte igual. El Libro dirá lo que falta, para que lo sepa quien venga después.
sweep-watch-short = { $minutes ->
    [one] A la vigilancia de incendio le queda 1 minuto.
    [many] A la vigilancia de incendio le quedan { $minutes } de minutos.
   *[other] A la vigilancia de incendio le quedan { $minutes } minutos.
}
sweep-watch-short-next = Quédate, o pide a alguien que la haga por ti. Las brasas no miran el reloj.
sweep-leave-now = Salir de la sala
sweep-stay = Quedarme un poco
sweep-missing = { $count ->
    [one] Falta 1 tarea
    [many] Faltan { $count } de tareas
   *[other] Faltan { $count } tareas
}

## Who is here

room-title = Sala
room-board = { $room } como tablero para la pared
room-nobody = Que se sepa, no hay nadie dentro.
room-me = { $name } (tú)
room-since = dentro desde { $since }, salida { $out-by }
room-sweeping = barriendo
room-heard = última noticia: { $ago }
room-muster = Recuento
room-muster-how = Fuera, llama a cada persona por su nombre. Esto es lo que sabe este teléfono; quien no tiene teléfono no está en la lista.
room-clear = Desalojar la sala
room-clear-sure = Avisar a todos: desalojar la sala
room-clear-called = A las { $clock } se llamó a salir a todos. Dilo también en voz alta: no todos los teléfonos se oyen.
room-count = { $people ->
    [one] No consta que haya salido 1 persona
    [many] No consta que hayan salido { $people } de personas
   *[other] No consta que hayan salido { $people } personas
}
room-call = Llamar al { $number }
room-call-emergency = En peligro: para, sal, llama al número de emergencias.
room-tagged = Fuera de servicio
room-none-tagged = Nada está fuera de servicio.
room-tagged-since = etiquetada { $ago }
room-tag-thread = Su hilo de reparación
room-tag-out = Poner una máquina fuera de servicio
room-tag-which = ¿Qué máquina?
room-tag-what = ¿Qué le pasa?
room-tag-photo = Etiquetar con una foto
room-tag-hint = Una frase. La siguiente persona la lee antes de tocar el interruptor.
room-tag = Fuera de servicio: { $machine }
room-rounds = Rondas
room-round-late = Con retraso: tocaba { $ago }.
room-round-due = Toca en { $length }.
room-round-never = Nadie ha anotado que se hiciera.
room-round-done = La última vez la hizo { $name },{ " " }
room-round-act = Hecha
room-found = ¿Cómo lo has encontrado?
room-found-clean = Estaba limpio
room-found-mess = Estaba sucio
room-found-where = ¿Dónde?
room-whole = { $room }: la sala misma
room-mess-what = ¿Qué has encontrado?
room-mess-hint = Qué y dónde. Sin nombres: el registro sabe las horas, y la persona responsable pregunta con amabilidad.
room-mess-talk = Si sabes quién estuvo, habla primero: «¿Qué estabas haciendo? ¿Recogemos juntos las virutas?»
room-mess-tell = Anotarlo
room-clean = limpio
room-mess = sucio
room-incident = Contar algo a la persona responsable
room-incident-what = ¿Qué ha pasado?
room-incident-tell = Ponerlo en el registro

## The log and this phone

book-title = Libro
book-pages = Páginas del libro
book-back-to-book = Volver al libro
book-stewards-page = Esta página es para quien cuida del taller.
book-page-today = Hoy
book-page-today-hint = Quién está dentro y qué te necesita
book-page-walk = El recorrido
book-page-walk-hint = Parada a parada por las salas; lo que cambió desde el tuyo
book-page-sign-offs = Lo que puedo usar
book-page-sign-offs-hint = Tus autorizaciones, hasta cuándo y qué sigue
book-page-people = Personas
book-page-people-hint = Quién es quién; iniciar, autorizar, teléfonos
book-page-rules = Reglas
book-page-rules-hint = El reglamento: escrito, probado, publicado
book-page-figures = Cifras
book-page-figures-hint = Cómo fueron los meses; para imprimir y llevarse
book-page-rounds = Rondas
book-page-rounds-hint = Pendientes, vencidas, y quién las hizo cuándo
book-page-print = Imprimir
book-page-print-hint = Códigos de puertas, máquinas, paradas y rondas
book-page-repairs = Reparaciones
book-page-repairs-hint = Qué está fuera, quién lo arregla, quién lo comprueba
book-page-finds = Hallazgos
book-page-finds-hint = Desorden, quién pudo dejarlo, qué se repite
book-page-incidents = Incidentes
book-page-incidents-hint = Qué pasó y qué se cambió
book-all-held = Todo está en el servidor.
book-waiting-next = Aquí está a salvo. Se envía cuando haya red.
book-sync = Enviar ahora
book-reached = Servidor alcanzado { $ago }.
book-not-asked = Aún no se ha preguntado al servidor.
book-not-all = Este teléfono aún no ha recibido todo el registro.
book-not-all-next = Lo que pone aquí puede cambiar cuando lo tenga.
book-rejected-next = Se guardan aquí con el motivo. Enséñalas a la persona responsable.
book-aside-next = Quedan aparte, intactas; el resto del registro sigue. Dilo a la persona responsable.
book-evenings = Tus sesiones pasadas
book-no-evenings = Cada sesión que dejas se dibuja aquí: trabajo, vigilancia de incendio, barrido.
book-evening = { $chores ->
    [one] Saliste a las { $left }, hora límite { $out-by }; 1 tarea marcada
    [many] Saliste a las { $left }, hora límite { $out-by }; { $chores } de tareas marcadas
   *[other] Saliste a las { $left }, hora límite { $out-by }; { $chores } tareas marcadas
}
book-lines = El registro de este teléfono
book-no-lines = Nada todavía. Lo que haces en una sesión se escribe aquí, línea a línea, y lo firma este teléfono.
book-more = { $count ->
    [one] Mostrar 1 línea anterior
    [many] Mostrar { $count } de líneas anteriores
   *[other] Mostrar { $count } líneas anteriores
}
book-line-waits = espera
book-line-held = en el servidor
book-line-rejected = no aceptada: { $why }
book-phone = Este teléfono
book-signs-for = Firma por { $name } en { $shop }.
book-key-sealed = Su clave está sellada en el navegador.
book-key-seed = Su clave está en el almacén del navegador; este navegador no puede sellarla.
book-pin = Seis cifras tuyas
book-pin-hint = Para cuando tu teléfono no tenga batería: escritas en el teléfono de otra persona, te permiten acompañarla. Ni una fecha, ni las que uses en otro sitio.
book-pin-act = Guardar estas cifras
book-card-days = { $days ->
    [one] Tu tarjeta vale un día más.
   *[other] Tu tarjeta vale { $days } días más.
 }
book-card-out = Tu tarjeta ha caducado.
book-steward = Eres responsable de este taller.
book-signer = Habilitas a otras personas.
book-list = Qué teléfonos se retiraron: según la central { $ago }.
book-show-card = Mostrar mi tarjeta
book-card-code = Tu tarjeta, como código
book-card-how = Para quien tenga un teléfono que aún no conoce el tuyo: escanea esto y luego tu respuesta.
book-off-none = La central tiene todo lo que dijo. Pide un código para otro teléfono.
book-off-next = { $count ->
    [one] Una línea que no ha enviado está a salvo aquí. Entrégala, y una persona responsable decide si cuenta; o guárdala en un archivo.
   *[other] { $count } líneas que no ha enviado están a salvo aquí. Entrégalas, y una persona responsable decide si cuentan; o guárdalas en un archivo.
 }
book-hand-in = Entregar
book-keep-file = Guardar en un archivo
book-handed = La central lo tiene. Una persona responsable decide si cuenta.
book-phones = Teléfonos
book-phones-how = Un teléfono nuevo, o uno más: pide un código a una persona responsable y escanéalo allí. ¿Perdiste uno? Retíralo enseguida, aquí o por una persona responsable: ya no lee nada, y nada de lo que diga cuenta. Un código hecho en su lugar lo retira por sí solo.
book-look-up = Consultar mis teléfonos
book-people-how = Un código es para una persona, sirve una vez y caduca tras un día.
book-people-look-up = Consultar códigos y teléfonos
book-invite = Código para { $name }
book-replace = Código en su lugar
book-made = Para { $name }: para escanear o teclear
book-open-code = Código para { $name }, sin usar
book-take-back = Retirarlo
book-a-phone = Un teléfono de { $name }, desde { $ago }
book-this-one = este teléfono
book-off = retirado
book-take-off = Retirarlo de la lista
book-take-off-sure = Retirarlo para siempre
book-late = { $lines ->
    [one] Espera una línea entregada tarde.
   *[other] Esperan { $lines } líneas entregadas tarde.
}
book-admit = Son suyas: admitirlas
book-admitted = { $lines ->
    [one] Una línea pasó al registro.
   *[other] { $lines } líneas pasaron al registro.
}
book-hang = Usarlo de tablero
book-hang-in = Colgarlo en { $room }
book-hang-nowhere = No cuelga en ningún sitio
book-mine = Lo que el hub guarda de ti
book-mine-how = Para verlo, llevártelo o borrarlo. Lo que no confirmaste en la puerta y el ruido y la vibración de cada día no salen nunca de este teléfono.
book-mine-look-up = Consultarlo
book-mine-lines = { $count ->
    [one] Una línea firmada por tus teléfonos
    [many] { $count } de líneas firmadas por tus teléfonos
   *[other] { $count } líneas firmadas por tus teléfonos
}
book-mine-naming = { $count ->
    [one] Una línea de otra persona que te nombra como acompañante
    [many] { $count } de líneas de otras personas que te nombran como acompañante
   *[other] { $count } líneas de otras personas que te nombran como acompañante
}
book-mine-more = { $count ->
    [one] Tu ficha de miembro, un teléfono y los códigos hechos para ti
    [many] Tu ficha de miembro, { $count } de teléfonos y los códigos hechos para ti
   *[other] Tu ficha de miembro, { $count } teléfonos y los códigos hechos para ti
}
book-mine-figures = Con qué se comprueban tus cifras
book-mine-pictures = { $count ->
    [one] Una foto que entregó un teléfono tuyo
    [many] { $count } de fotos que entregaron tus teléfonos
   *[other] { $count } fotos que entregaron tus teléfonos
}
book-mine-stays = { $count ->
    [one] Una línea sigue vigente y se queda por ahora: una etiqueta en una máquina, lo último dicho de una ronda o una sesión en curso.
    [many] { $count } de líneas siguen vigentes y se quedan por ahora: una etiqueta en una máquina, lo último dicho de una ronda o una sesión en curso.
   *[other] { $count } líneas siguen vigentes y se quedan por ahora: una etiqueta en una máquina, lo último dicho de una ronda o una sesión en curso.
}
book-mine-days = { $days ->
    [one] El registro se guarda un día y luego se borra solo, también en los teléfonos.
    [many] El registro se guarda { $days } de días y luego se borra solo, también en los teléfonos.
   *[other] El registro se guarda { $days } días y luego se borra solo, también en los teléfonos.
}
book-mine-file = Llevármelo en un archivo
book-erase = Pedir que se borre
book-erase-sure = Borrarlo para siempre
book-erased = { $count ->
    [one] Una línea borrada, también aquí. Su sitio en el registro queda, vacío.
    [many] { $count } de líneas borradas, también aquí. Sus sitios en el registro quedan, vacíos.
   *[other] { $count } líneas borradas, también aquí. Sus sitios en el registro quedan, vacíos.
}
book-clock-offset = { $minutes ->
    [one] Su reloj difiere 1 minuto del reloj del servidor.
    [many] Su reloj difiere { $minutes } de minutos del reloj del servidor.
   *[other] Su reloj difiere { $minutes } minutos del reloj del servidor.
}
book-theme = Aspecto
book-theme-phone = Como el teléfono
book-theme-dark = Acero oscuro
book-theme-light = Papel
book-language = Idioma
book-notices = Mostrar los toques con el teléfono bloqueado
book-notices-on = Los toques se muestran con el teléfono bloqueado.
book-notices-off = Los toques no se muestran con el teléfono bloqueado; lo deciden los ajustes de esta página.
book-notices-why = Un teléfono bloqueado puede quedarse callado igual. Pon también su propio temporizador.
book-update-waits = Hay una versión nueva lista.
book-update-next = Espera a que no haya ninguna sesión abierta.
book-update = Cambiar a ella ahora
book-waiting = { $count ->
    [one] 1 línea espera en este teléfono.
    [many] { $count } de líneas esperan en este teléfono.
   *[other] { $count } líneas esperan en este teléfono.
}
book-rejected = { $count ->
    [one] El servidor no ha aceptado 1 línea.
    [many] El servidor no ha aceptado { $count } de líneas.
   *[other] El servidor no ha aceptado { $count } líneas.
}
book-aside = { $count ->
    [one] No se ha podido volver a leer 1 línea.
    [many] No se han podido volver a leer { $count } de líneas.
   *[other] No se han podido volver a leer { $count } líneas.
}

## Asking and answering

buddy-ask = Pedir acompañante
buddy-ask-how = Alguien de esta sala escanea esto con su teléfono y confirma. Luego escanea lo que muestre el suyo.
buddy-ask-code = Tu código para acompañante
buddy-good-for = { $minutes ->
    [one] Vale 1 minuto más.
    [many] Vale { $minutes } de minutos más.
   *[other] Vale { $minutes } minutos más.
}
buddy-too-old = Este código ha caducado. Vuelve atrás y pide otra vez.
buddy-could-be = Que se sepa, están en esta sala
buddy-ask-phone = Preguntar también a su teléfono
buddy-asked-too = También se ha preguntado por la red al teléfono de { $name }.
buddy-scan-answer = Escanear su respuesta
buddy-show-code = Mostrar otra vez mi código
buddy-asks = { $name } te pide que le acompañes
buddy-manners = Hazte ver antes de hablar a quien está en una máquina.
buddy-here = Estoy en la sala
buddy-leaving = Me voy
buddy-show-back = Muéstrale esto
buddy-show-back-how = { $name } lo escanea con su teléfono. Entonces cuenta.
buddy-answer-code = Tu respuesta
buddy-carrying = Se envía también por la red.
buddy-carried = También ha ido por la red. Quizá ya lo tenga.
buddy-not-carried = La red no llega. Basta con el código.
buddy-done = Hecho
buddy-covering = Acompañas a { $name } hasta { $clock }
buddy-covering-how = ¿Sales de la sala? Escanea otra vez su código, dilo en la app y de palabra.
buddy-given-word = de palabra
buddy-given-room = en la sala
buddy-given-pin = por sus cifras
buddy-board = Código del tablero
buddy-board-hint = Seis cifras, otras cada medio minuto. Con ellas consta que estás en la sala. Puedes dejarlas en blanco.
buddy-no-phone = Acompañante sin teléfono
buddy-who = ¿Quién es?
buddy-figures = Seis cifras de { $name }
buddy-figures-hint = { $name } las escribe aquí. Nadie más mira.
buddy-in-room = Sala: { $room }.
buddy-at-machine = Máquina: { $machine }. Sala: { $room }.
buddy-means = { $minutes ->
    [one] Estás en la misma sala, te quedas en ella y levantas la vista de vez en cuando. Tu palabra vale 1 minuto; se te volverá a preguntar.
    [many] Estás en la misma sala, te quedas en ella y levantas la vista de vez en cuando. Tu palabra vale { $minutes } de minutos; se te volverá a preguntar.
   *[other] Estás en la misma sala, te quedas en ella y levantas la vista de vez en cuando. Tu palabra vale { $minutes } minutos; se te volverá a preguntar.
}

## Bells

bell-first = Termina la pasada en la que estás.
bell-sweep = Para. Empieza a barrer.
bell-last = Ya ha pasado tu hora de salida.
bell-last-spark = Última chispa. Se acabó el trabajo en caliente.
bell-lapsing = La palabra de tu acompañante acaba en 2 minutos.
bell-lapsed = Sin acompañante. Para la máquina.
bell-name-first = Primer toque, { $clock }
bell-name-sweep = Toque de barrer, { $clock }
bell-name-last = Último toque, { $clock }
bell-name-last-spark = Última chispa, { $clock }
bell-name-buddy = { $machine }, { $clock }
bell-clear = Sal de la sala.
bell-clear-next = Apaga y sal por el camino más corto. Ponte a la vista antes de hablar a quien está en una máquina. Después, el recuento.
bell-name-clear = Aviso de las { $clock }
bell-muster = Al recuento
bell-late = { $minutes ->
    [one] Este toque llega 1 minuto tarde: el teléfono dormía o estaba cerrado.
    [many] Este toque llega { $minutes } de minutos tarde: el teléfono dormía o estaba cerrado.
   *[other] Este toque llega { $minutes } minutos tarde: el teléfono dormía o estaba cerrado.
}
bell-first-times = Barrer desde { $sweep }. Salida { $out-by }.
bell-first-next = Luego deja lo que hoy no necesita más trabajo.
bell-sweep-next = Apaga, espera a que se pare; las tareas están listas en su orden.
bell-last-next = Termina o deja lo que falta, y dilo al salir. O cambia tu salida si puedes quedarte.
bell-last-spark-next = La vigilancia de incendio necesita el tiempo que queda. Puedes trabajar en frío.
bell-lapsing-next = Muéstrale otra vez tu código, o ve parando.
bell-lapsed-next = Cuando esté parada, pide a alguien de la sala que escanee tu código.
bell-heard = Oído
bell-sweeping-now = Ya estoy limpiando
bell-go-on = Seguir limpiando
bell-have-left = Ya me he ido
bell-more-how = ¿Cuánto más?
bell-more-not = Lo que confirmaste en la puerta acaba entonces: en esta sesión no puedes quedarte más.
bell-more-then = Entonces, limpiar desde las { $sweep }, fuera a las { $out-by }.
bell-more-spark = La última chispa también se mueve, a las { $clock }.
bell-more-costs = Te cuesta { NUMBER($minutes) } min de tu tarde, y otro tanto a quien espera la sala.
bell-more-until = Hasta las { $clock } como mucho: ahí acaba lo que confirmaste en la puerta.
bell-more-act = Fuera a las { $clock }
bell-left-why = Entonces, ¿por qué no está hecha la limpieza?
bell-left-how = Para que quien venga después sepa qué esperar. No se culpa a nadie.
bell-left-not-ticked = Está hecha, no la marqué
bell-left-others-sweep = Limpia otra persona
bell-left-had-to-go = Tuve que irme
bell-left-unsaid = Prefiero no decirlo
bell-more-time = Necesito más tiempo
bell-ask-again = Pedir otra vez
bell-notice = { $machine }. { $next }

## What the hub calls out to a phone in a pocket (said by the service worker) and whether it can (Bench, Book)

call-watch-over = La guardia de fuego ha terminado.
call-watch-over-next = Mira una vez más donde se trabajó en caliente, y listo.
call-not-sweeping = Alguien cerca de ti no ha empezado a barrer.
call-not-sweeping-next = Ve a verlo y dile que es la hora. Deja que te vea antes de hablarle.
call-not-out = Alguien no ha respondido a su último toque.
call-not-out-next = En Sala se ve quién sigue allí. Pregúntale si todo va bien.
call-long-past = Alguien pasa media hora de su hora de salida.
call-long-past-next = En Sala se ve quién sigue allí. Si nadie te responde, que alguien vaya a ver.
call-watch-cut-short = Una guardia de fuego se ha acortado.
call-watch-cut-short-next = Que alguien busque brasas donde se trabajó en caliente, hasta que pase su tiempo.
call-try = Una prueba: el hub alcanza este teléfono.
call-try-next = No toca nada. Así llega una campana.
call-unknown = Hay algo pendiente.
call-unknown-next = Abre Sweepbell y te dirá qué.
call-late = { $minutes ->
    [one] Tocaba hace 1 minuto.
    [many] Tocaba hace { $minutes } de minutos.
   *[other] Tocaba hace { $minutes } minutos.
}
pocket-armed = El hub llama a este teléfono, también bloqueado, donde ambos tienen red.
pocket-unasked = Bloqueado en el bolsillo, el hub aún no llama a este teléfono.
pocket-arm = Que el hub lo llame
pocket-refused = Este teléfono no deja pasar los toques de esta página cuando está bloqueado. Lo deciden sus ajustes para esta página.
pocket-home-screen = Este navegador solo llama a un teléfono bloqueado si la app está en la pantalla de inicio. Pon Sweepbell allí, ábrela allí y vuelve a esta línea.
pocket-unsupported = A este navegador no se le puede llamar mientras está cerrado.
pocket-unreached = Si el hub llama a este teléfono se sabrá cuando vuelva a haber contacto con él.
pocket-failed = El navegador no dio una dirección a la que llamar. Prueba otra vez donde haya red.
pocket-own-timer = Pon también el temporizador del propio teléfono.
pocket-more = Toques en el bolsillo
pocket-lit = La pantalla sigue encendida.
pocket-dark = La pantalla puede apagarse.
pocket-heard = El sonido está activo.
pocket-mute = El sonido llega con el primer toque de la pantalla.
pocket-timer-rings = El temporizador del teléfono suena a las { $clock }, según dijiste.
pocket-timer-late = Tu temporizador suena a las { $clock }, después del toque de barrido: ponlo otra vez.
pocket-in-view = A la vista
pocket-in-view-how = Mientras esta página está a la vista suena, hace vibrar el teléfono donde se puede y destella.
pocket-try-it = Probarlo ahora
pocket-only-a-try = Solo una prueba.
pocket-with-network = Bloqueado, con red
pocket-without-network = Bloqueado, sin red
pocket-timer-for = Pon un temporizador en el reloj del teléfono para
pocket-timer-is-set = Lo he puesto
pocket-calendar = Llevar los toques al calendario
pocket-calendar-how = Un respaldo: algunos calendarios aceptan el archivo y omiten sus alarmas. Si cambian las horas, llévalo otra vez; es la misma entrada.
pocket-end = Que no lo llame más
pocket-manner = Cómo suenan las campanas
pocket-manner-mute = Destello y vibración, sin sonido
pocket-manner-mute-how = Toda la pantalla destella una vez por segundo, diga lo que diga el teléfono sobre el movimiento, y el teléfono vibra más tiempo.
pocket-manner-say = También en voz alta
pocket-manner-night = Más bajo de 22 a 7
pocket-manner-board = El tablero de la sala me nombra
pocket-manner-board-how = Para esta sesión: su campana dice entonces para quién es.
pocket-on = sí
pocket-off = no
pocket-try-hub = Llamarlo como prueba
pocket-try-comes = Dentro de { NUMBER($seconds) } segundos el hub llama a este teléfono: bloquéalo ya. Si no llega nada, cuenta con el temporizador.
pocket-browsers = Qué puede cada navegador
pocket-on-android = Android, en el navegador o en la pantalla de inicio: sonido, vibración y pantalla encendida mientras la página se ve; el hub lo llama bloqueado, salvo que el teléfono lo retenga para ahorrar energía.
pocket-on-iphone-home = iPhone y iPad, en la pantalla de inicio: sonido y pantalla encendida mientras se ve, sin vibración; el hub lo llama bloqueado.
pocket-on-iphone-tab = iPhone y iPad, en una pestaña del navegador: sonido mientras se ve y nada al estar bloqueado. Pon Sweepbell en la pantalla de inicio.
pocket-on-computer = Ordenador: sonido mientras se ve; el hub lo llama mientras el navegador funcione. Nada vibra.

## The steel rule

rule-title = Tu sesión como regla de acero
rule-past = pasado
rule-work = trabajo
rule-sweep = barrido
rule-watch = vigilancia
rule-last-spark = última chispa
rule-out-by = salida
rule-over = de más
rule-says-out-by = Salida { $at }.
rule-says = Primer toque { $first-bell }, barrer desde { $sweep }, salida { $out-by }.
rule-says-last-spark = Última chispa { $at }.

## The camera

scan-title = Escanear
scan-how = Pon el código en la imagen. A un palmo suele estar bien.
scan-typed = O escribe el nombre que pone en la puerta
scan-use-it = Usarlo
scan-missing = Aquí no hay cámara.
scan-refused = Esta página no puede usar la cámara.
scan-busy = Otro programa tiene la cámara.
scan-other = La cámara no arranca.
scan-missing-next = Escribe el nombre de la puerta, o escanea con otro teléfono.
scan-refused-next = Permítelo en los ajustes del navegador para esta página, o escribe el nombre de la puerta.
scan-busy-next = Cierra el otro programa, vuelve atrás y escanea otra vez.

## Asking why

why-why = ¿Por qué?
why-act = ¿por qué?
why-all = ¿Por qué estas horas?

## What the app is not

cautions-title = Lo que esta app no puede hacer
cautions-support = Te ayuda a juzgar. No es un dispositivo de seguridad.
cautions-no-interlock = No hace segura una máquina, no la enclava y no mide el ruido.
cautions-defers = Van por delante las normas del taller, las normas locales, la autoridad competente y el ejercicio profesional habilitado.
cautions-danger = En peligro: para, sal, llama al número de emergencias.

## What is looked up: fire, metals, finishes, shades

look-look-up = Consultar
look-fire = Fuego
look-leave-first = Sal. Avisa a los demás. Llama.
look-small-only = Solo un fuego pequeño, y solo con la salida a tu espalda. Si dudas, sal. Van por delante las normas del taller y los bomberos.
look-gather = Punto de reunión
look-way-out = Salida
look-no-way-out = No es una salida
look-doors = { $room }: puertas
look-burns = { $room }: ¿qué arde?
look-none-written = { $room }: el reglamento no nombra ningún extintor.
look-nothing-for-it = Aquí no hay nada para esto. Sal.
look-metal = ¿Qué metal es este?
look-metal-how = Prueba un imán en una zona limpia y ráyalo. El peso y el tamaño lo acotan. Nada de esto sustituye a una etiqueta.
look-magnet = Un imán
look-scratch = Recién rayado es
look-grams = Peso en g
look-shape = Su tamaño es el de
look-tool = Medido con
look-may-be = Puede ser
look-dense = De { $least } a { $most } g/cm³, con la duda de la báscula y la regla.
look-no-metal = Nada de aquí encaja. Pesa y mide otra vez; puede ser hueco, chapado o una aleación que no está en la lista.
look-until-sure = Mientras no lo sepas seguro, no en: { $machines }.
look-air = ¿Puedo abrir este bote?
look-voc = COV del bote, en g/l
look-voc-hint = Listo para usar, con diluyente y endurecedor. 1{ "\u00A0" }lb/gal son 120{ "\u00A0" }g/l. ¿Sin número? Déjalo vacío.
look-place = Dónde
look-no-place = El reglamento no nombra ningún sitio para pintura o cola. Pregunta a la persona responsable.
look-in-the-room = { $room }, en la sala
look-yes-room = Sí, con el extractor en marcha y la tapa puesta entre pasadas.
look-yes-hood = Sí:
look-not-you = Todavía no:
look-too-much = No, es demasiado.
look-unsaid = No, sin un número en el bote no.
look-limit = Límite { NUMBER($g-per-l) } g/l: { $source }.
look-air-caution = Esto trata solo del vapor de disolvente. Los isocianatos y el fuego están en la etiqueta del bote.
look-shades = Tonos de soldadura
look-least-shade = El tono mínimo
look-shades-how = El mínimo que puede haber, también para quien ayuda o mira. Empieza más oscuro y aclara hasta ver el trabajo. 29 CFR 1910.133(a)(5).
look-table-ends = la tabla acaba en { NUMBER($most) }{ "\u00A0" }A
look-left-caution = Oídos y manos: lo que queda hoy hasta un valor de acción de ruido o vibración. Una estimación con niveles típicos, sin protección auditiva, no una medición. Se queda en este teléfono.
look-burning-ordinary = Madera, papel, trapos
look-burning-liquid = Pintura, disolvente, aceite
look-burning-gas = Gas
look-burning-live = Algo con corriente
look-burning-metal = Metal: virutas, polvo
look-burning-oil = Aceite de cocina
look-first-liquid = Nunca agua.
look-first-gas = Cierra la válvula si la alcanzas; una llama que no se puede cortar se deja arder.
look-first-live = Corta antes la corriente, si llegas. Nunca agua.
look-first-metal = Aplícalo con suavidad. Nunca agua, espuma ni CO2.
look-agent-water = agua
look-agent-foam = espuma
look-agent-powder = polvo
look-agent-co2 = CO2
look-agent-clean-gas = gas limpio
look-agent-wet-chemical = agente químico húmedo
look-agent-metal-powder = polvo para metales
look-agent-dry-sand = arena seca
look-extinguisher = { $place }: { $agent }, marcado { $classes }.
look-extinguisher-live = { $place }: { $agent }, marcado { $classes }, y apto con corriente.
look-magnet-holds = se pega
look-magnet-lets-go = no se pega
look-colour-grey = gris
look-colour-yellow = amarillo
look-colour-red = rojo
look-shape-block = un bloque
look-shape-round = una barra redonda
look-shape-water = su agua
look-tool-rough = regla o jarra
look-tool-fine = calibre o probeta
look-size-length = Largo en mm
look-size-width = Ancho en mm
look-size-height = Alto en mm
look-size-across = Diámetro en mm
look-size-displaced = Agua desplazada en ml
look-sure-alone = lo único de aquí que encaja
look-sure-fits = encaja
look-sure-edge = encaja solo por la duda de la lectura
look-candidate = De { $least } a { $most } g/cm³, { $sure }.
look-never-in = Nunca en: { $machines }.
look-caveat-brass-or-bronze = El latón y el bronce se solapan: el peso y el tamaño no los distinguen.
look-caveat-stainless = Hay acero inoxidable que tampoco se pega al imán.
look-caveat-magnesium = Puede ser magnesio: sin chispas, sin esmerilar, y nunca agua si arde.
look-caveat-lead = Puede ser plomo: sin polvo, sin humo, y lávate las manos.
look-process-stick = Electrodo revestido
look-process-wire = Hilo, macizo o tubular
look-process-tig = TIG
look-process-plasma-cutting = Corte por plasma
look-process-plasma-welding = Soldadura por plasma
look-process-air-carbon-arc = Arco-aire con carbón
look-process-carbon-arc = Arco con carbón
look-process-gas-welding = Soldadura con gas
look-process-oxygen-cutting = Oxicorte
look-process-brazing = Soldadura fuerte con soplete
look-process-soldering = Soldadura blanda con soplete
look-shade = tono { NUMBER($shade) }
look-amperes-under = menos de { NUMBER($edge) }{ "\u00A0" }A: tono { NUMBER($shade) }
look-plate-under = chapa de menos de { $edge }{ "\u00A0" }mm: tono { NUMBER($shade) }
look-amperes-from = desde { NUMBER($edge) }{ "\u00A0" }A: tono { NUMBER($shade) }
look-plate-from = chapa desde { $edge }{ "\u00A0" }mm: tono { NUMBER($shade) }
look-left-ears = oídos: quedan { $length }
look-left-hands = manos: quedan { $length }
look-enough-ears = oídos: bastante por hoy
look-enough-hands = manos: bastante por hoy
look-day-left-ears = A tus oídos les quedan hoy { $length } aquí, según una estimación que no mide nada.
look-day-enough-ears = Tus oídos ya han tenido bastante por hoy, según una estimación que no mide nada.
look-day-left-hands = A tus manos les quedan hoy { $length } aquí, según una estimación que no mide nada.
look-day-enough-hands = Tus manos ya han tenido bastante por hoy, según una estimación que no mide nada.

## A line of the log

facts-entered = Entrada: { $about }
facts-attested = Confirmado: { $about }
facts-started-for = En marcha: { $about }, para { $material }
facts-started = En marcha: { $about }
facts-stopped = Parada: { $about }
facts-buddy = Acompaña { $about }
facts-buddy-left = Ya no acompaña { $about }
facts-out-by-moved = Salida cambiada
facts-sweep-started = { $crew ->
    [1] Barrido empezado, una sola persona
    [many] Barrido empezado, { $crew } de personas
   *[other] Barrido empezado, { $crew } personas
}
facts-done-photo = Hecho, con foto: { $about }
facts-done = Hecho: { $about }
facts-round = Ronda: { $about }
facts-watch = Recorrido el lugar del trabajo en caliente
facts-timer = Temporizador del teléfono puesto
facts-clear = Llamó a salir a todos: { $about }
facts-bell-heard = Campana oída
facts-on-board = El tablero de la sala puede nombrarte
facts-not-on-board = El tablero de la sala ya no te nombra
facts-undone = Limpieza sin hacer: { $why }
facts-undone-not-ticked = está hecha, pero sin marcar
facts-undone-others-sweep = limpia otra persona
facts-undone-had-to-go = tuvo que irse
facts-undone-unsaid = no se dijo
facts-clean = Estaba limpio: { $about }
facts-mess = Estaba sucio: { $about }
facts-mess-note = Estaba sucio: { $about }. { $note }
facts-tagged = Fuera de servicio: { $about }. { $problem }
facts-tag-cleared = Etiqueta quitada: { $about }
facts-incident = Contado a la persona responsable: { $note }
facts-clock = El reloj del teléfono saltó { NUMBER($seconds) } s
facts-left = Salida de la sala
facts-walked = Parada recorrida: { $about }
facts-walk-done = Todas las paradas recorridas
facts-inducted = Iniciación dada a { $about }
facts-induction-back = Iniciación retirada a { $about }
facts-signed-off = Autorización dada: { $about }
facts-sign-off-back = Autorización retirada: { $about }
facts-role = Función dada: { $about }
facts-rules = Reglas publicadas, n.º { NUMBER($number) }
facts-rules-why = Reglas publicadas, n.º { NUMBER($number) }: { $note }
facts-newer = Algo que escribió una app más nueva: { $what }
facts-noted = { $about }: { $step }
facts-noted-words = { $about }: { $step }. { $note }

step-remarked = Nota
step-waits = Se espera una pieza
step-waits-until = Se espera una pieza, hasta el { $date }
step-mended = Arreglada
step-checked = Comprobada por otra persona
step-asked = Preguntado
step-changed = Se ha cambiado algo
step-seen-to = Atendido

matter-found = Lo encontrado
matter-incident = Lo contado
matter-session = Una tarde

## What went wrong with the phone, its storage or the network: what happened, then what to do

faults-spare = Guardado en el almacén pequeño del navegador: el grande no responde.
faults-spare-next = Cuenta. Recarga cuando tengas una mano libre, para que se pase al grande.
faults-machine-code = Ese código es de una máquina: { $name }.
faults-machine-code-next = Empieza una sesión en la puerta y arráncala en Banco.
faults-code-too-long = Los nombres de este taller son demasiado largos para un código.
faults-code-too-long-next = Usa la red y dilo a la persona responsable.
faults-buddy-here = Ahora te acompaña { $name }.
faults-buddy-gone = { $name } ya no te acompaña.
faults-buddy-gone-next = Para lo que pida acompañante, o pídelo a otra persona.
faults-six-figures = No son seis cifras.
faults-pin-guessable = Cualquiera probaría esas primero.
faults-pin-guessable-next = Elige seis que no sean todas iguales ni vayan seguidas.
faults-pin-wrong = Esas no son sus cifras.
faults-pin-wrong-next = Escríbelas otra vez. Tras cinco fallos este teléfono no acepta ninguna durante diez minutos.
faults-pin-rests = En este teléfono se han escrito demasiadas cifras equivocadas.
faults-pin-rests-next = { $minutes ->
    [one] Espera { NUMBER($minutes) } minuto, o pídelo a alguien con teléfono.
   *[other] Espera { NUMBER($minutes) } minutos, o pídelo a alguien con teléfono.
}
faults-pin-unknown = Este teléfono no puede comprobar sus cifras.
faults-pin-unknown-next = Deja que alcance el servidor una vez, o pídelo a alguien con teléfono.
faults-pin-kept = Desde ahora estas son tus cifras.
faults-no-photo = La parte de la aplicación que hace fotos no ha llegado.
faults-no-photo-next = Puedes seguir sin foto.
faults-clock-jumped = { $seconds ->
    [one] El reloj del teléfono saltó { $seconds } segundo.
    [many] El reloj del teléfono saltó { $seconds } de segundos.
   *[other] El reloj del teléfono saltó { $seconds } segundos.
}
faults-clock-jumped-next = Las horas de tu sesión siguen igual. Queda anotado en el registro.
faults-forked = El servidor cuenta de este teléfono otra historia que el propio teléfono.
faults-forked-next = Aquí no se ha perdido nada. Dilo a la persona responsable antes de seguir.
faults-other-tab = Otra pestaña fue más rápida, así que esto no se ha hecho.
faults-other-tab-next = Mira otra vez y vuelve a pulsar.
faults-full = El almacén del teléfono está lleno, así que esto no se ha guardado.
faults-full-next = Lo guardado está a salvo y tu sesión sigue. Libera espacio y vuelve a pulsar.
faults-lost = El almacén del teléfono no responde, así que esto no se ha guardado.
faults-lost-next = Lo guardado está a salvo. Pulsa otra vez; si no basta, recarga.
faults-no-hub = El servidor del taller no responde.
faults-offline = No hay red, o no hay servidor.
faults-offline-next = Todo funciona sin ella. Se vuelve a intentar solo.
faults-not-joined = El servidor no conoce este teléfono.
faults-not-joined-next = Pide un código a una persona responsable.
faults-pause = El servidor pide una pausa.
faults-pause-next = Se vuelve a intentar en { NUMBER($seconds) } s.
faults-revoked = Este teléfono ya no está en la lista del taller.
faults-revoked-next = Lo que no ha enviado está a salvo en él; el Libro dice qué hacer. Para seguir, pide un código para otro teléfono.
faults-other-hub = Esta central firma con una clave que este teléfono no conoce.
faults-other-hub-next = Aquí no ha cambiado nada y lo que tienes sigue. Avisa a una persona responsable.
faults-invite-used = Este código ya se usó, y sirve una vez.
faults-invite-used-next = Pide otro a una persona responsable. Si no lo usaste tú, dilo.
faults-invite-over = Este código ha caducado o fue retirado.
faults-invite-over-next = Pide otro a una persona responsable.
faults-card-seen = Este teléfono ya conoce el teléfono de { $name }.
faults-card-seen-next = Escanea su respuesta, o que la envíe otra vez.
faults-bad-card = Esa tarjeta no cuenta: ha caducado, fue retirada o es de otro taller.
faults-bad-card-next = Que abra Sweepbell donde haya red y la muestre otra vez.
faults-word-taken = Desde ahora cuenta en este teléfono.
faults-word-taken-next = El servidor se entera solo.
faults-word-back = Este teléfono sabe que se retiró.
faults-word-back-next = Pregunta a quien lo retiró qué viene ahora.
faults-others-word = Ese código no es para este teléfono, o es de alguien que no puede decirlo.
faults-others-word-next = Que se muestre al teléfono de quien trata; o pide ayuda a una persona responsable.
faults-newer-hub = El servidor es más nuevo que esta app.
faults-newer-hub-next = Recarga cuando no estés en una sesión.
faults-wrong-code = No hay tal código
faults-wrong-code-next = Míralo otra vez, o pide otro a una persona responsable.
faults-unknown-member = Miembro desconocido
faults-unknown-member-next = La lista de miembros del taller no tiene a esa persona. Pregunta a la persona responsable.
faults-joined-for-another = Ya unido por otra persona
faults-joined-for-another-next = Este aparato ya firma por otro miembro. Borra sus datos para unirlo de nuevo.
faults-hub-failed = Fallo del servidor
faults-hub-failed-next = El servidor ha fallado. Lo que enviaste sigue en tu aparato; se enviará otra vez.
faults-hub-answered = El servidor ha respondido { NUMBER($status) }.

## Which time is another now, and why

moved-last-spark = Última chispa { $at }
moved-first-sweep-from = Barrer desde { $at }
moved-sweep-from = barrer desde { $at }
moved-first-out-by = Salida { $at }
moved-out-by = salida { $at }
moved-no-more = ya no hay
moved-told = { $times }: { $cause }
moved-started = has arrancado { $machine }.
moved-stopped = has parado { $machine }.
moved-out-by-moved = has cambiado tu salida.
moved-sweep-started = { $crew ->
    [1] barre una sola persona.
    [many] barréis { $crew } de personas.
   *[other] barréis { $crew } personas.
}
moved-done = hecho: { $text }
moved-other-came = ha entrado { $who }, y puede que salga en último lugar.
moved-other-left = ha salido { $who }, y puede que te toquen las últimas tareas de la sala.
moved-learned = se ha visto cuánto se tarda en esto: { $text }

## What stands beside a sign on the sheet of a machine

signs-wear-eyes = gafas de protección
signs-wear-ears = protección auditiva
signs-wear-face = pantalla facial, sobre las gafas
signs-wear-toes = calzado con puntera
signs-wear-sleeves = manga larga
signs-wear-gloves = guantes
signs-wear-mask = mascarilla
signs-wear-weld-shade = careta, con su tono puesto
signs-wear-loose = pelo y cordones recogidos
signs-never-gloves = guantes
signs-never-loose = todo lo suelto: pelo, cordones, bufandas
signs-never-rings = anillos y pulseras
signs-never-sleeves = mangas sueltas

## Metals, by the words that rulebooks have for them

metal-mild-steel = acero dulce
metal-cast-iron = fundición de hierro
metal-stainless-steel = acero inoxidable
metal-tool-steel = acero de herramientas
metal-aluminium = aluminio
metal-copper = cobre
metal-brass = latón
metal-bronze = bronce
metal-titanium = titanio
metal-magnesium = magnesio
metal-zinc = cinc
metal-lead = plomo
metal-tin = estaño
metal-nickel = níquel
metal-hardened-steel = acero templado
metal-galvanised-steel = acero galvanizado
metal-painted-steel = acero pintado

## Refusals: why, in one sentence, and what to do next

refusal-not-a-member = La persona de este teléfono no está en la lista de miembros.
refusal-not-inducted = Aún no consta tu recorrido de iniciación.
refusal-card-expired = Tu tarjeta ha caducado: hace demasiado que este teléfono no habla con la central.
refusal-induction-expired = Tu iniciación ha caducado.
refusal-no-such-room = Este taller no tiene ninguna sala llamada { $room }.
refusal-already-in = Ya estás en: { $room }.
refusal-not-attested = Falta confirmar: { $text }
refusal-attestation-lapsed = Lo que confirmaste en la puerta ha caducado; hace mucho de eso.
refusal-out-by-out-of-range = A esa hora no puede acabar esta sesión.
refusal-no-session = No tienes sesión.
refusal-has-left = Esta sesión ha terminado.
refusal-sweeping = Estás barriendo; las máquinas ya no se encienden.
refusal-no-such-machine = Este taller no tiene ninguna máquina llamada { $machine }.
refusal-machine-elsewhere = { $machine } está en otra sala: { $room }.
refusal-tagged-out = { $machine }, fuera de servicio: { $problem }.
refusal-not-signed-off = Aún no tienes autorización para { $machine }.
refusal-sign-off-expired = Tu autorización para { $training } ha caducado.
refusal-sign-off-stale = { $training }: la última vez fue hace más de { NUMBER($days) } días.
refusal-material-refused = { $machine } no debe trabajar { $material }.
refusal-no-buddy = { $machine } pide acompañante, y nadie ha confirmado.
refusal-past-last-spark = Ya pasó la última chispa: una vigilancia de incendio de { NUMBER($watch-minutes) } minutos no acabaría a tiempo.
refusal-already-running = { $machine } ya está en marcha.
refusal-not-running = { $machine } no está en marcha.
refusal-own-buddy = Nadie puede ser su propio acompañante.
refusal-buddy-elsewhere = { $buddy } está en otra sala: { $room }.
refusal-buddy-full-one = { $buddy } acompaña ahora a otra persona.
refusal-buddy-full = { $buddy } acompaña ya a { NUMBER($covers) } personas.
refusal-buddy-operates = { $buddy } está en una máquina que pide acompañante.
refusal-not-a-buddy = Esa persona no te acompaña ahora.
refusal-no-such-chore = Esa tarea no es de esta sesión.
refusal-chore-done = Esa tarea ya está hecha.
refusal-chore-waits = Antes va otra cosa: { $first }
refusal-no-such-round = Este taller no tiene ninguna ronda llamada { $round }.
refusal-no-watch = No hay ninguna vigilancia de incendio en curso.
refusal-no-words = No se ha escrito nada.
refusal-too-long = Es demasiado largo para guardarlo.
refusal-not-tagged = { $machine } no está fuera de servicio.
refusal-not-mended = Nadie ha dicho que { $machine } esté arreglada.
refusal-second-person = Has arreglado { $machine }: la comprueba otra persona.
refusal-stewards-act = Esto solo lo puede hacer una persona responsable.
refusal-not-a-signer = No habilitas a otras personas: { $training }.
refusal-own-sign-off = Nadie se autoriza a sí mismo.
refusal-last-steward = No hay nadie más responsable de este taller.
refusal-no-such-member = En la lista de miembros no hay nadie llamado { $person }.
refusal-no-such-training = Ninguna máquina pide { $training }.
refusal-no-such-stop = El recorrido no tiene esa parada.
refusal-other-answer = No del todo. { $because }
refusal-no-crew = Barre al menos una persona.
refusal-cannot-plan = No se puede planear el barrido: { $why }.
refusal-next-not-a-member = Pide a una persona responsable que te añada y vuelve a intentarlo.
refusal-next-not-inducted = Pide a una persona responsable el recorrido de la sala; dura una media hora.
refusal-next-card-expired = Abre Sweepbell una vez donde haya red. Si no sirve, pregunta a una persona responsable.
refusal-next-induction-expired = Pide a una persona responsable un repaso.
refusal-next-no-such-room = Escanea otra vez el código de la puerta.
refusal-next-already-in = Ve a Banco, o sal antes de esa sesión.
refusal-next-not-attested = Confírmalo, o vuelve otro día.
refusal-next-attestation-lapsed = Sal, descansa y empieza una sesión nueva en la puerta.
refusal-next-out-by-out-of-range = Elige una hora entre las dos que se muestran.
refusal-next-no-session = Escanea antes el código de la puerta.
refusal-next-has-left = Escanea el código de la puerta para empezar de nuevo.
refusal-next-sweeping = Termina las tareas; si necesitas la máquina, empieza otra sesión.
refusal-next-no-such-machine = Elige una máquina de la lista.
refusal-next-machine-elsewhere = Empieza una sesión en esa sala: { $room }.
refusal-next-tagged-out = Usa otra máquina. Vuelve cuando esté arreglada y otra persona la haya comprobado.
refusal-next-not-signed-off = Pide la autorización: { $training }.
refusal-next-sign-off-expired = Pide un repaso antes de usarla.
refusal-next-sign-off-stale = Pide a quien autoriza que lo repase contigo una vez.
refusal-next-material-refused = Usa una máquina hecha para ese material.
refusal-next-no-buddy = Pide a alguien de la sala que escanee tu código.
refusal-next-past-last-spark = Trabaja ahora en frío, o cambia tu salida si puedes quedarte más.
refusal-next-already-running = No hace falta hacer nada.
refusal-next-own-buddy = Pídelo a otra persona de la sala.
refusal-next-buddy-elsewhere = Pídelo a alguien que esté en esta sala.
refusal-next-not-a-buddy = Muestra tu código si necesitas acompañante.
refusal-next-no-such-chore = Elige una tarea de la lista.
refusal-next-chore-waits = Haz esa primero.
refusal-next-no-such-round = Elige una ronda de la lista.
refusal-next-no-watch = Sigue adelante.
refusal-next-no-words = Di en pocas palabras qué pasa.
refusal-next-too-long = Dilo en { NUMBER($most) } caracteres o menos.
refusal-next-not-tagged = Se puede usar.
refusal-next-not-mended = Quien la arregle, lo dice primero en su hilo.
refusal-next-second-person = Pídelo a alguien con permiso para usarla, o a una persona responsable.
refusal-next-stewards-act = Pídelo a una persona responsable.
refusal-next-not-a-signer = Pídelo a quien puede: el Libro dice quién es.
refusal-next-own-sign-off = Pídelo a otra persona que pueda.
refusal-next-last-steward = Da antes esa función a otra persona.
refusal-next-no-such-member = Elige a alguien de la lista.
refusal-next-no-such-training = Elige una formación de la lista.
refusal-next-no-such-stop = Elige una parada de la lista.
refusal-next-other-answer = Mira otra vez y elige otra respuesta.
refusal-next-no-crew = Di cuántas personas barréis.
refusal-next-cannot-plan = Empieza a barrer pronto, y cuenta a la persona responsable lo que pone aquí.
refusal-impossible-unknown-room = no hay ninguna sala `{ $room }` en el reglamento
refusal-impossible-unknown-machine = no hay ninguna máquina `{ $machine }` en el reglamento
refusal-impossible-no-crew = no hay nadie para cerrar: el equipo es de 0
refusal-impossible-too-few-people = `{ $chore }` necesita { NUMBER($hands) } personas a la vez, y hay { NUMBER($crew) }
refusal-impossible-no-gear = `{ $chore }` necesita `{ $gear }`, y el taller no tiene
refusal-impossible-cycle = `{ $chore }` espera, a través de otras tareas, a sí misma

## The rule behind a refusal, its numbers and its source

because-not-a-member = Las sesiones son para miembros.
because-not-inducted = Primero va el recorrido de la sala.
because-card-expired = Una tarjeta vale 60 días y se renueva cada vez que el teléfono habla con la central.
because-induction-expired = Una iniciación vale hasta una fecha.
because-no-such-room = Solo cuenta lo que está escrito allí.
because-already-in = Nadie está en dos sitios.
because-not-attested = Primero cada declaración, una a una, en orden.
because-attestation-lapsed = Vale para una sesión.
because-out-by-out-of-range = Ni demasiado pronto para barrer ni demasiado tarde.
because-no-session = Solo en una sesión.
because-sweeping = El barrido se planea para lo que funcionó antes.
because-machine-elsewhere = Una sesión es para una sala.
because-tagged-out = Una etiqueta se queda hasta que no hay peligro.
because-second-person = Antes de volver al servicio, sin herramientas, con las protecciones y con todos apartados: lo ven dos personas.
because-not-signed-off = Una autorización de su formación, hasta una fecha.
because-sign-off-stale = Las manos olvidan lo que no hacen.
because-material-refused = Daña la máquina, o a ti.
because-no-buddy = Alguien de la sala tiene que estar por ti todo el rato.
because-past-last-spark = Tras una chispa vienen la vigilancia y todas las tareas.
because-already-running = Ya es así.
because-own-buddy = Quien acompaña ayuda cuando tú no puedes.
because-buddy-elsewhere = Quien acompaña te puede ver y oír.
because-buddy-full = Quien acompaña solo tiene ojos para unos pocos.
because-buddy-operates = Quien necesita acompañante no tiene ojos para ti.
because-not-a-buddy = Solo se puede retirar una palabra que se dio.
because-chore-waits = Unas tareas deshacen otras.
because-no-watch = Una vigilancia sigue al trabajo en caliente.
because-no-words = Quien lo lee solo tiene tus palabras.
because-stewards-act = Una persona responsable responde por la sala.
because-not-a-signer = Quien autoriza responde por la formación.
because-own-sign-off = Cuatro ojos ven más que dos.
because-last-steward = Un taller tiene quien lo cuide.
because-other-answer = Más tarde estarás a solas con ello.
because-no-crew = Cada tarea tiene sus manos y su turno.
because-source = Fuente: { $source }.
because-ours = norma propia de Sweepbell
because-book = reglamento
because-book-key = reglamento, { $key }
because-members = lista de miembros
because-practice = práctica común, sin fuente
because-book-and-members = reglamento, { $key }; lista de miembros
because-buddy-source = reglamento, { $key }; 29 CFR 1915.84 no da minutos
because-until = Hasta { $at }.
because-between = De { $earliest } a { $latest }.
because-since = Desde { $at }.
because-last-use = Última vez { $at }; como mucho { NUMBER($days) } días.
because-no-use-known = No se sabe de ningún uso; { NUMBER($days) } días como mucho.
because-word-holds = Una palabra vale { NUMBER($minutes) } min.
because-last-spark = Última chispa { $at }, vigilancia { NUMBER($minutes) } min.
because-at-most = { NUMBER($most) } como máximo.
because-characters = { $most ->
    [one] { $most } carácter como máximo.
    [many] { $most } de caracteres como máximo.
   *[other] { $most } caracteres como máximo.
}

## Why a time is what it is

plan-out-by = Salida
plan-sweep-from = Barrer desde
plan-first-bell = Primer toque
plan-last-spark = Última chispa
plan-watch-until = Vigilancia hasta
plan-free-at = Libre
plan-rule-said = Lo dijiste tú. Puedes cambiarla.
plan-rule-chores-fit = Empezando entonces, las tareas acaban a la hora de salida.
plan-rule-floor = Las tareas no necesitan más de lo que reserva el taller.
plan-rule-before-sweep = Tiempo para terminar la pasada en la que estás.
plan-rule-watch-and-chores-fit = Una chispa entonces deja tiempo para la vigilancia de incendio y todas las tareas.
plan-rule-spark-not-after-sweep = Ninguna chispa desde que empieza el barrido.
plan-rule-watch-from-last-spark = Empieza con la última chispa.
plan-rule-watch-from-end = Empezó al acabar el trabajo en caliente. Una chispa nueva la vuelve a empezar.
plan-rule-all-from-now = Si empiezas a barrer ahora; nunca antes de que acabe una vigilancia de incendio.
plan-rule-after-watch = El trabajo en caliente acabó tarde: primero la vigilancia, luego el barrido. No se llega a la hora de salida.
plan-source-said = lo que dijiste
plan-source-chores = las tareas y la reserva del reglamento
plan-source-reserve = la reserva del reglamento
plan-source-watch = la vigilancia de incendio del reglamento; 29 CFR 1910.252(a)(2)(iii)(B): media hora o más, y las normas locales
plan-crew = { $count ->
    [1] Barre una persona.
    [many] Barren { $count } de personas.
   *[other] Barren { $count } personas.
}
plan-chore = { NUMBER($minutes) } min{ $how }. { $owner }: { $text } ({ $from })
plan-by-itself = , va solo
plan-together = , { NUMBER($count) } personas juntas
plan-with-gear = , con { $gear }
plan-learnt = Lo visto basta { NUMBER($enough-pct) } de cada 100 veces; los minutos del reglamento cuentan { NUMBER($prior-weight) } veces.
plan-order-best = En total { NUMBER($minutes) } min; ningún orden es más corto.
plan-order-near = En total { NUMBER($minutes) } min; como mucho sobran { NUMBER($gap) } min.
plan-bound = { $bound }: { NUMBER($minutes) } min.
plan-floor-minutes = Nunca se reservan menos de { NUMBER($minutes) } min.
plan-first-bell-minutes = { NUMBER($minutes) } min antes del barrido.
plan-watch-exclusive = La vigilancia ocupa a una persona { NUMBER($minutes) } min.
plan-watch-shared = La vigilancia dura { NUMBER($minutes) } min, y quien vigila puede barrer entretanto.
plan-hot-work-ended = El trabajo en caliente acabó: { $at }.
plan-no-later = { $at } como muy tarde: ninguna sesión es más larga.
plan-now = Calculado desde { $at }.
plan-from-book = reglamento
plan-from-use = reglamento, para { NUMBER($minutes) } min de uso
plan-from-cap = el máximo del reglamento, para { NUMBER($minutes) } min de uso
plan-from-log = { $times ->
    [1] visto una vez
    [many] visto { $times } de veces
   *[other] visto { $times } veces
}
plan-bound-critical-path = Solo las tareas que se esperan unas a otras
plan-bound-work = Todo el trabajo, repartido entre quienes están libres
plan-bound-gear = Solo las tareas que quieren el mismo equipo
plan-bound-hands = Las tareas de muchas manos, que se estorban
plan-bound-watch = Solo la vigilancia de incendio
plan-time = { $name }: { $at }
plan-source = Fuente: { $source }.
plan-assumed = Se da por hecho:
plan-assumes-last-out = No consta nadie más en la sala, así que sus últimas tareas son tuyas.
plan-assumes-others-sweep = Constan otras personas en la sala, así que sus últimas tareas son suyas.
plan-assumes-gear-is-free = El equipo está libre cuando lo necesitas: { $gear }.
plan-assumes-one-sweeps = Barre una sola persona; si sois más, se cuentan al empezar a barrer.
plan-assumes-run-until-sweep = Las máquinas en marcha siguen hasta el barrido.

## A buddy's answer that does not count

answer-ask-too-old = Esta petición ha caducado.
answer-other-ask = Esa respuesta es de otra petición.
answer-used-before = Esa respuesta ya se usó.
answer-oneself = Quien acompaña es otra persona.
answer-signature = Esa respuesta no está entera, o no es para esta sala.
answer-unknown-phone = Este teléfono aún no conoce el teléfono de tu acompañante.
answer-other-person = Ese teléfono es de otra persona.
answer-board-code = El tablero no mostraba ese código hace un momento.
answer-next-board-code = Que tu acompañante lea otra vez el tablero, o que deje el código en blanco.
answer-next-ask-too-old = Muestra un código nuevo y que lo escanee otra vez.
answer-next-other-ask = Que tu acompañante escanee el código que está ahora en tu pantalla.
answer-next-oneself = Pide a alguien de la sala que escanee tu código.
answer-next-signature = Que tu acompañante escanee otra vez tu código, aquí en la sala.
answer-next-unknown-phone = Que muestre su tarjeta desde el Libro; escanéala y luego su respuesta. O pide a otra persona.
answer-next-other-person = Que tu acompañante use su propio teléfono.

## A code that could not be read

code-other-shop = Este código es de otro taller ({ $host }).
code-newer = Este código lo hizo una app más nueva.
code-damaged = Este código no ha llegado entero.
code-foreign = Este código no es de este taller.
code-next-other-shop = Escanea un código que cuelgue en este taller.
code-next-newer = Carga la app más nueva y escanea otra vez.
code-next-damaged = Limpia la lente, no te muevas y escanea otra vez.
code-next-foreign = Escanea el código de la puerta, o el del otro teléfono.

## A line that the hub did not take

entry-damaged = Esta entrada cambió después de firmarse.
entry-other-device = Esta entrada la firmó otro teléfono.
entry-gap = Entradas anteriores a esta no han llegado al taller.
entry-fork = El taller ya tiene otra entrada en este lugar.
entry-declared-lost = El registro del taller siguió sin esta entrada.
entry-other-member = Esta entrada habla por otro miembro.
entry-unreadable = El taller no puede leer esta entrada.
entry-not-allowed = Esta entrada dice lo que su miembro no puede decir.
entry-unknown = El taller no contó esta entrada.
entry-next-damaged = Se queda en este teléfono. Enséñasela a la persona responsable.
entry-next-other-device = Envíala desde el teléfono que la escribió.
entry-next-gap = No hay que hacer nada: la próxima vez se envían juntas.
entry-next-fork = Enséñasela a la persona responsable y vuelve a unirte con un código nuevo.
entry-next-unreadable = Carga la app más nueva y luego enséñasela a la persona responsable.
entry-next-not-allowed = Pide a una persona responsable que lo diga.

## El tablero de pared

board-title = Tablero
board-code = Código para acompañantes
board-no-room = Esa sala no está en el reglamento.
board-with = con { $names }
board-tagged = { $machine } está fuera de servicio: { $problem }
board-no-hub = Ahora sin servidor: esto es lo último que se supo.
board-bell-sweep = { $clock }: alguien debe empezar a barrer. Levanta la vista de tu trabajo.
board-bell-watch = { $clock }: acabó una vigilancia de incendio. Mira otra vez donde se trabajó en caliente.
board-bell-last = { $clock }: alguien ha pasado su hora de salida.
board-bell-clear = { $clock }: todos fuera. Apaga y sal por el camino más corto. Después, el recuento.
board-bell-for = { $name }. { $words }
board-touch-once = Toca este tablero una vez: solo entonces su navegador puede sonar.
board-watch = { $minutes ->
    [one] vigilancia de incendio, queda 1 minuto
    [many] vigilancia de incendio, quedan { $minutes } de minutos
   *[other] vigilancia de incendio, quedan { $minutes } minutos
}
board-watch-over = acabó la vigilancia de incendio

## Las primeras páginas, una sola vez

welcome-title-time = Cuida de tu tiempo
welcome-title-each-other = Os cuidáis entre vosotros
welcome-title-home-screen = Tenlo a mano
welcome-time = Di a qué hora tienes que haber salido. Sweepbell cuenta hacia atrás: cuándo dejar el trabajo en caliente, cuándo barrer.
welcome-rule = Esta regla es tu sesión. Suena cuando aún hay tiempo.
welcome-buddy = Algunas máquinas piden compañero. Os enseñáis un código; no hace falta red.
welcome-unwatched = No se vigila a nadie. Decir que no en la puerta no se anota en ninguna parte, y salir nunca está bloqueado.
welcome-caution = No hace segura ninguna máquina. Primero van tu formación y las reglas del taller.
welcome-why-home-screen = En la pantalla de inicio se abre al momento, sin red.
welcome-is-there = Ya está ahí.
welcome-browser-asks = Este navegador puede ponerlo ahí por ti.
welcome-by-share-sheet = Pulsa el botón de compartir del navegador y luego «Añadir a pantalla de inicio».
welcome-by-menu = Abre el menú del navegador y luego «Instalar» o «Añadir a pantalla de inicio».
welcome-on-computer = En un ordenador: el signo al final de la barra de direcciones, o el menú del navegador, y luego «Instalar». Un marcador también sirve.
welcome-install = Ponerlo ahí
welcome-next = Siguiente
welcome-begin = A la puerta
welcome-skip = Saltar

## Today: what needs the steward

today-needs = Qué te necesita
today-none = Por lo que sabe este teléfono, ahora nada te necesita.
today-who-is-in = Quién está dentro
today-past-out-by = { $name } ({ $room }) quería estar fuera a las { $out-by }.
today-past-out-by-next = Llama, o pide a alguien que mire. Si nadie contesta, ve allí o pide ayuda.

walk-left = { NUMBER($left) } de { NUMBER($count) } por recorrer
walk-how = Ve a cada sitio y escanea allí su código. Lee o escucha lo que dice; si pregunta, responde. Nadie cuenta los fallos.
walk-changed-how = Algo cambió desde tu recorrido. Solo eso hay que recorrerlo otra vez.
walk-done-how = Lo has recorrido todo. Ahora una persona responsable te da la iniciación.
walk-inducted = Tu iniciación vale hasta el { $day }. No hay nada nuevo que recorrer.
walk-scan = Escanear una parada
walk-next = Escanear la siguiente parada
walk-aloud = Leer en voz alta
walk-seen = Visto y entendido
walk-read = Lo he leído
walk-behind = Esta ya la tienes hecha.
walk-show = Muéstralo a la persona responsable
walk-show-how = Su teléfono lo escanea en Personas y dice que tienes la iniciación. No hace falta red.
walk-code = Que lo has recorrido todo, como código
walk-stops = Las paradas
walk-stops-how = ¿Falta allí un código? Toca su línea.
walk-door = En la puerta, cada vez
walk-state-behind = recorrida
walk-state-changed = ha cambiado
walk-state-ahead = por recorrer
standing-induction = Iniciación
standing-to-walk = Al recorrido
standing-may = Lo que puedes usar
standing-may-none = Nada todavía. Con la iniciación puedes barrer y acompañar.
standing-next = Lo que sigue
standing-next-none = Tienes todas las autorizaciones de aquí.
standing-no = aún no
standing-until = hasta el { $day }
standing-use-before = hasta el { $day }, si se usa antes del { $before }
standing-lapsed = caducó el { $day }
standing-stale = sin usar en { NUMBER($days) } días: repásalo una vez con quien autoriza
standing-signers = Autoriza: { $names }
standing-no-signers = Nadie autoriza todavía para esto. Pide ayuda a una persona responsable.
standing-shown-how = ¿Te acaban de autorizar? Escanea el código de su teléfono y aquí cuenta enseguida.
standing-scan = Escanear su código
people-name = Nombre
people-name-hint = Basta una parte.
people-scan = Escanear el recorrido de alguien
people-nobody = Nadie aquí lleva eso en el nombre.
people-more = { $count ->
    [one] y uno más: escribe más del nombre
   *[other] y { $count } más: escribe más del nombre
}
people-others = Buscar a otra persona
people-role-member = miembro
people-role-signer = autoriza a otras personas
people-role-steward = responsable
people-walked = Ha recorrido todas las paradas, tal como están ahora.
people-walked-next = Pregúntale qué ha visto y dale abajo la iniciación.
people-walked-other = Su recorrido es de otras reglas que las de este teléfono.
people-walked-other-next = Que ambos teléfonos hablen con el servidor, y mira otra vez.
people-sign-offs = Autorizaciones
people-unknown = Para qué tiene ya autorización, este teléfono no lo sabe. El suyo sí.
people-induct = Dar la iniciación
people-induct-again = Dar la iniciación de nuevo
people-take-back = Retirarla
people-take-back-spoken = Retirarla: { $training }
people-sign = Autorizar
people-sign-spoken = Autorizar: { $training }
people-together = Juntos, en la máquina. Toca cada línea cuando esté hecha.
people-tick-all = Cuando estén todas las líneas, se puede firmar.
people-signed = Lo hemos hecho todo: firmar
people-show = Muéstralo a su teléfono
people-show-how = { $name } lo escanea en «Lo que puedo usar». Allí cuenta enseguida, sin red.
people-code = Lo firmado, como código
people-role = Función
people-role-how = Quien autoriza, habilita a otras personas en las máquinas. Una persona responsable cuida del taller. Siempre hay una por lo menos.
people-leaves = Baja
people-held = Llevarse lo que se guarda sobre esta persona
people-leave-how = Se retiran sus teléfonos y se borra todo lo que el servidor guarda, salvo lo que sigue en vigor, como una etiqueta en una máquina. Para siempre.
people-leave = Deja el taller
people-leave-sure = Para siempre: retirar y borrar
people-left = { $count ->
    [one] Se borró una línea y sus teléfonos están retirados.
   *[other] Se borraron { $count } líneas y sus teléfonos están retirados.
}
people-left-next = Quita también sus líneas del archivo de miembros.

## The rulebook desk

rules-how = Se escribe aquí y no vale para nadie hasta que se publica. Las sesiones en curso conservan las reglas con las que empezaron.
rules-toml = El reglamento, en TOML
rules-problems = Qué está mal
rules-place = Línea { NUMBER($line) }, columna { NUMBER($column) }.
rules-no-problem = No se encontró ningún problema.
rules-orphans = En marcha ahora y fuera de este reglamento: { $machines }.
rules-orphans-next = Espera a que paren. Si se publica igualmente, quien las usa conserva las reglas antiguas hasta irse.
rules-changes = Qué cambia
rules-no-changes = Nada, frente a las reglas vigentes.
rules-evening = Probar una tarde
rules-evening-how = Cada toque es media hora más en una máquina. No se anota nada.
rules-evening-change = Cambia la tarde o las reglas.
rules-used = { $name }, { $length }
rules-crew = { $count ->
    [one] Limpia una persona
   *[other] Limpian { $count } personas
}
rules-evening-none = Sin tarde
rules-step = { $from } a { $to }: { $what }
rules-reserve = Se reservan { NUMBER($minutes) } min para limpiar.
rules-publishing = Publicar
rules-publishing-how = Vale enseguida para cada sesión que empiece, en cada teléfono en cuanto alcance el hub.
rules-note = Por qué, en pocas palabras
rules-not-ready = Habrá algo que publicar cuando no haya problemas y algo cambie.
rules-publish = Publicar estas reglas
rules-publish-sure = Valen para todos: publicar
rules-published = Publicado con el número { NUMBER($number) }.
rules-in-force = Volver a las reglas vigentes
rules-before = Lo publicado
rules-none-before = Nada todavía: vale el archivo del taller.
rules-version = { NUMBER($number) }, { $when }, por { $by }
rules-put-back = Ponerlo en el texto
rules-starts = Para empezar
rules-start-metal = Una sala de metal
rules-start-wood = Una sala de madera
rules-start-mixed = Ambas
## Figures: what months were like, for the steward and the board

figures-this-month = Este mes
figures-last-month = El mes pasado
figures-all = Todo lo guardado
figures-of = ¿De qué periodo?
figures-from-to = { $from } a { $to }
figures-counted = Contado en este teléfono, con todo lo que le ha llegado del registro.
figures-demo = Datos de prueba: taller, miembros y registro son inventados.
figures-sheet = Imprimir en una hoja
figures-files = Llevarse el registro
figures-files-how = Todo el registro, como lo tiene el servidor, para otros programas. Nombra a los miembros: responde de él quien lo pase a otros. En las tablas, un texto que una hoja de cálculo tomaría por fórmula lleva un apóstrofo delante.
figures-file-log = Cada anotación en una línea (JSON lines)
figures-file-calendar = Sesiones y rondas pendientes (calendario)
figures-file-table = { $name } (tabla)
figures-table-sessions = Sesiones
figures-table-uses = Usos de máquinas
figures-table-chores = Tareas
figures-table-rounds = Rondas
figures-table-finds = Lo encontrado
figures-table-tags = Etiquetas
figures-table-incidents = Incidentes
figures-none = Nada de eso.
figures-sessions = Sesiones
figures-people = Personas
figures-there = Tiempo en las salas
figures-open = Aún abiertas
figures-busy = Horas de más uso
figures-busy-how = Horas de presencia, sumadas, por día de la semana. Cada columna son tres horas desde la que la encabeza.
figures-weekday = Día
figures-monday = Lun
figures-tuesday = Mar
figures-wednesday = Mié
figures-thursday = Jue
figures-friday = Vie
figures-saturday = Sáb
figures-sunday = Dom
figures-machines = Horas por máquina
figures-machine = Máquina
figures-uses = Usos
figures-time = Tiempo
figures-more-machines = { $count ->
    [one] Una máquina más
   *[other] { NUMBER($count) } máquinas más
}
figures-sweeps = Cómo quedaron las salas
figures-complete = Todo hecho
figures-incomplete = Algo sin hacer
figures-not-begun = De ellas, sin barrer
figures-how = Cómo
figures-times = Veces
figures-left = Sin hacer
figures-reserve = La reserva y la realidad
figures-reserve-said = { NUMBER($within) } de { NUMBER($of) } barridos completos acabaron a la hora prevista, y { NUMBER($chores-within) } de { NUMBER($chores-of) } tareas medidas no duraron más de lo previsto. El reglamento pide { NUMBER($asked) } de cada 100 tareas.
figures-reserve-none = Ningún barrido completo con que juzgar la reserva.
figures-ended = Acabaron
figures-sweeps-of = Barridos
figures-early-over = más de { NUMBER($minutes) } min antes
figures-early = de { NUMBER($from) } a { NUMBER($to) } min antes
figures-on-time = hasta { NUMBER($minutes) } min antes, o en punto
figures-late = de { NUMBER($from) } a { NUMBER($to) } min tarde
figures-late-up-to = hasta { NUMBER($minutes) } min tarde
figures-late-over = más de { NUMBER($minutes) } min tarde
figures-safety = Acompañantes y vigilancias de incendio
figures-what = Qué
figures-buddy-uses = Usos que piden acompañante
figures-buddy-gaps = Huecos sin acompañante
figures-watches-needed = Vigilancias necesarias
figures-watches-kept = Cumplidas hasta el final
figures-watches-cut = Acortadas
figures-found = Cómo se encontró
figures-found-how = Solo lo que alguien anotó. Donde más se mira, más se encuentra: lee ambas columnas.
figures-place = Lugar
figures-mess = Sucio
figures-clean = Limpio
figures-mess-hours = Suciedad encontrada, por hora del día
figures-tagged = Fuera de servicio
figures-days-out = Días fuera
figures-still-out = aún fuera
figures-rounds = Rondas
figures-round = Ronda
figures-done = Hechas
figures-done-late = De ellas, tarde
figures-overdue = vencida

## Rounds kept: due, overdue, and who did what when

kept-how = Imprime esto para una inspección. Una ronda se marca donde se hace: escanea allí su código.
kept-print = Imprimir
kept-when = Cuándo
kept-who = Quién
kept-nothing = Nadie ha anotado que se hiciera.
kept-every = { $room }. Cada { $every }.
kept-source = Lo pide: { $source }
kept-no-source = Sin fuente indicada.
kept-late = Vencida: tocaba el { $date }.
kept-due = Toca antes del { $date }.
kept-scan-title = Una ronda
kept-scan-act = La he hecho, aquí
kept-scan-how = Un toque la anota a tu nombre.
kept-day = { $count ->
    [one] día
   *[other] { NUMBER($count) } días
}
kept-week = { $count ->
    [one] semana
   *[other] { NUMBER($count) } semanas
}
kept-month = { $count ->
    [one] mes
   *[other] { NUMBER($count) } meses
}
kept-year = { $count ->
    [one] año
   *[other] { NUMBER($count) } años
}

## Print: codes to hang up

posted-how = Una tarjeta por lugar, para recortar por los guiones. Se leen hasta a medio metro; tenlas limpias y lejos del polvo de amolar.
posted-leads = Los códigos llevan a { $origin }. Los teléfonos deben llegar allí al servidor.
posted-which = ¿Qué tarjetas?
posted-doors = Puertas
posted-machines = Máquinas
posted-stops = Paradas
posted-rounds = Rondas
posted-print = { $count ->
    [one] Imprimir una tarjeta
   *[other] Imprimir { NUMBER($count) } tarjetas
}
posted-none = El reglamento no tiene ninguna.
posted-door-act = Escanea antes de trabajar aquí.
posted-machine-act = Escanea para arrancarla o ponerla fuera de servicio.
posted-stop-act = Escanea en tu recorrido por el taller.
posted-round-act = ¿Hecha? Escanea aquí.
posted-code = Código de { $name }
posted-emergency = En peligro: para, sal, llama al { $number }.
posted-no-number = En peligro: para, sal, llama al número de emergencias.
posted-caution = Ayuda a decidir; no hace segura ninguna máquina. Antes van las normas del taller y la práctica autorizada.
posted-stop-name = Parada { NUMBER($number) } de { NUMBER($of) }, { $room }
today-incident = Contado: { $note }
today-incident-next = Léelo, habla con quien lo contó y di qué se cambió.
today-evening = { $name }, { $room }, salió { $when }
today-watch-short = A la guardia de fuego le faltaron { NUMBER($minutes) } min.
today-gap = { $machine } funcionó sin compañía, de { $from } a { $to }.
today-missing = Sin marcar: { $chores }
today-they-say = Dice: { $why }
today-fire-next = Pregunta cómo fue y si alguien miró después el lugar.
today-evening-next = Habladlo, primero con interés por su trabajo.
today-out = { $machine } está fuera: { $problem }
today-out-next = Nadie ha dicho aún qué se hace.
today-out-check = Arreglada por { $name }. Otra persona tiene que comprobarla.
today-out-waits = Se espera una pieza.
today-rounds = { $count ->
    [one] Toca una ronda
    [many] Tocan { $count } de rondas
   *[other] Tocan { $count } rondas
}
today-rounds-late = { $count ->
    [one] Una ronda va con retraso
    [many] { $count } de rondas van con retraso
   *[other] { $count } rondas van con retraso
}
today-round-since = Tocaba el { $when }.
today-round-next = Hazlo, o pídelo a alguien que esté.
today-mess = Desorden: { $place }
today-mess-next = Mira quién pudo dejarlo y pregunta.
today-mess-asked = Ya se preguntó. Anota cómo acabó.
today-seen-to = Atendido
today-to-thread = A su hilo
today-to-find = Quién pudo dejarlo
today-to-incident = A los incidentes
today-to-rounds = A las rondas
today-is-in = { $name }, salida { $out-by }

repairs-none = Nada está fuera de servicio, que sepa este teléfono.
repairs-tagged = Fuera de servicio por { $name }: { $problem }
repairs-picture-of = Foto de { $machine }, tal como se etiquetó
repairs-picture-missing = La foto aún no está aquí: llega cuando el teléfono que la hizo y este han alcanzado el hub.
repairs-by = { $step }, { $name }
repairs-mended-by = Arreglada por { $name }. Sigue fuera hasta que otra persona la compruebe.
repairs-nothing-yet = Nadie ha dicho aún qué se hace.
repairs-say = Decir más
repairs-words = En pocas palabras
repairs-words-hint = Qué se vio, qué se hizo, qué pieza.
repairs-until = Si se espera una pieza: ¿cuánto?
repairs-week = Una semana
repairs-two-weeks = Dos semanas
repairs-month = Cuatro semanas
repairs-remark = Solo una nota
repairs-waits = Se espera una pieza
repairs-mended = Está arreglada
repairs-check = Comprobarla y devolverla
repairs-check-how = Junto a la máquina, otra persona que quien la arregló:
repairs-check-tools = Sin herramientas, trapos ni piezas sueltas.
repairs-check-guards = Protecciones y tapas puestas y firmes.
repairs-check-clear = Todos apartados, y saben que vuelve.
repairs-check-tag = La etiqueta la quitas tú con tu mano.
repairs-check-source = Según 29 CFR 1910.147(e) y 1910.145(f). Antes van las reglas del taller y las normas locales; esto no sustituye un candado.
repairs-check-act = Todo así. Se puede usar
repairs-days = Fuera en los últimos { NUMBER($days) } días
repairs-days-row = { NUMBER($days) } días { NUMBER($hours) } horas en total, fuera { $times ->
    [one] una vez
   *[other] { NUMBER($times) } veces
}

finds-none = Sin desorden en los últimos { NUMBER($days) } días.
finds-by = Encontrado por { $name }, { $when }
finds-clean-at = Limpio por última vez { $when }
finds-clean-never = No consta que estuviera limpio antes.
finds-nobody = No hay ningún uso en el registro.
finds-rule = Cuándo se usó desde que estuvo limpio
finds-footage = { NUMBER($minutes) } min de grabación en total
finds-window = { $from } a { $to }
finds-ticked = Marcado: { $chores }
finds-picture-of = Foto de lo hecho: { $chore }
finds-unticked = Sin marcar: { $chores }
finds-clock = El reloj de su teléfono saltó { NUMBER($seconds) } s; tenlo en cuenta.
finds-ask = Un mensaje para preguntar a { $name }
finds-message = Hola, { $name }: { $place } no estaba limpio el { $when }. Lo usaste antes ({ $from }). ¿Recuerdas cómo quedó? Si algo lo impidió, cuéntamelo; me gustaría hacerlo más fácil.
finds-message-hint = Tócalo y se marca todo para copiarlo.
finds-asked = Se preguntó
finds-outcome = Anotar cómo acabó
finds-outcome-hint = Qué fue y qué ayuda. No hacen falta nombres.
finds-seen-to = Atendido
finds-patterns = Qué se repite, en { NUMBER($days) } días
finds-machines = Desorden, de los usos de una máquina
finds-chores = Tareas sin marcar, de las veces que tocaban
finds-people = Tardes con algo sin marcar
finds-people-how = Por orden de nombre. Pocas tardes dicen poco de nadie: mira lo ancho del intervalo.
finds-share = { NUMBER($times) } de { NUMBER($of) }; { NUMBER($low) } a { NUMBER($high) } de 100
finds-interval = Las segundas cifras son el intervalo que contiene la parte real 95 de 100 veces (Clopper y Pearson).

incidents-none = No hay nada contado que esté sin atender.
incidents-first = Si hay alguien herido, ayuda y llama primero; escribe después. Los primeros auxilios, quien sepa darlos.
incidents-guard = Escribe lo que se vio y se hizo. Sin diagnóstico y sin suponer de quién es la culpa. La ley local dice qué hay que comunicar y a quién.
incidents-told = Contado por { $name }, { $when }
incidents-near-miss = Un susto
incidents-incident = Incidente
incidents-aid-given = Se dieron primeros auxilios
incidents-aid-none = Sin primeros auxilios
incidents-aid = ¿Hubo primeros auxilios?
incidents-yes = Sí
incidents-no = No
incidents-kind = ¿Qué fue?
incidents-place = ¿Dónde?
incidents-place-none = Ni en una máquina ni en una sala
incidents-follow = Seguirlo
incidents-follow-hint = Qué se miró, qué se cambió.
incidents-remark = Solo una nota
incidents-changed = Esto se cambió
incidents-seen-to = Atendido
