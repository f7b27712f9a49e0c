"""Common Spanish words that lie near a field word in spelling and are none: they are never 'corrected'.

Chosen with the help of open word-frequency lists (wordfreq, data under CC BY-SA 4.0; spacy-lookups-data, MIT).
"""

COMMON = """
caliente calientes caliento calienta fierro cortito chato pega bajarme
abandona abandonada abandonado abandonar abandono abierta abiertas abierto abiertos abogados abrazo abrazos abre
abri abriendo abrigo abril abrio abrir abuela abuelo abuelos aburrida aburrido acaba acababa acabado acabamos acaban
acabar acabara acabaron acabas acabe acabo acaso acertado aclara aclarar acordado acta actas acto actuar acusados
acusar adoptada adoptado adoro afecta afectan afectar africa afuera afueras agarra agarrar agarre agarro agenda
agente agosto agotado agrada agrado agregado agua aguas aguda aguila aguilar aguja ahora ahorita ahorrar ahorro aire
aires aislados ajena alarma alba alberga alberto alcance alcanza alcanzado alcanzan alcanzar alcanzo alegando alegra
alegria alegro alejado aleman alerta alfa algo algodon alguien algun alguna algunas alguno algunos aliado alianza
aliento alimenta alimentacion alimentar alimentaria alimento alimentos alla alma almas almeria almuerzo alojamiento
alta altar altas alto altura alza amaba amado amamos amargo ambito ambitos amiga amigas amigo amigos amos amplia
ampliacion amplias analisis analista analistas anciana andes andina andres angela anillo anima animado animal anime
animo animos anoche anonimo ante antecedentes antena antes apagar aparece aparecen aparecer aparecia aparecio
aparente aparezca apartado aparte apenas apetece apetito aplicacion aplicaciones apoyada apoyando aprobado aprueba
apto aqui arabia ardiente area arena arenas arma armada armadas armados arranca arrancar arranco arrestado arriba
arroyo arroz arte artes asado asalto ascenso ascensor asesor asia asiento asientos aspectos asuntos ataca atacado
atacan atacando atacar atacaron ataco atado ataque ataques atenas atentado atentados atraer atrapado atrapados
atrapar atravesando atravesar atraviesa aumentos auto autor autora autos avance avanza avanzada avanzado avanzar
avatar avenida avisa avisar avisos ayer ayuda ayudo azucar azul azules añadiendo años baby bailando bailar baja
bajada bajado bajan bajando bajar bajas baje bajo bajos bala balanza balas ballet banca banco bancos bandas bando
bandos bang bank barata barato barba barra barras basa basada basado basados basan base basicos bastante bastantes
batalla batallas batallon bateria batman baño baños bebe beber bebes bebida bebidas beca benito beso bien bienes
blanca blancas blanco blancos bloque bloquea bloqueado bloquear bloqueo bloques boca bocas boda bola bolas boleto
boletos bolivar bolsa bolsas bolso boludo bonita bonitas bonitos bono borrado borrar botella botellas bravo brazo
brazos brecha bronca brujas brutal buen buscado buscador buscan buscando buscar buscarlo buscas cabaña cabe cabeza
cabezas cabida cabildo cabina cable cables cabo cabra cabrera cabron caca cacao caceres cada cadena cafe caga cagada
cagar cago caia caida caido caidos cairo caja cajon calcio calcula calcular caldo cali calibre calido call calla
callado callao callar calle calles calmar calvo calzada calzado cama camara camarada camaras cambia cambiado cambian
cambiando cambiar cambiara cambiaria cambiaron cambio cameron camilo camina caminar camino caminos camion camisa
camisas camiseta campeon canada canasta cancha candidata candidato canon cansada cansado cansados cansancio canta
cantan cantando cantar cantidad canton cantos caos capa capas capaz capilla capo captar captura cara carajo caras
carbon carbono carcel carece carga cargada cargado cargando cargar cargas cargo cargos caribe cariño carl carla
carlos carmen carne carnes carnet caro carril carrillo carro carros carta cartas cartel carter carton casa casada
casado casados casar casas casco case casero casi casino caso casos castilla castro casual cauca caudal causa
causada causado causan causando causar causas causo cayeron cayo caza cazar caña cañon cedula celula celular
celulares celulas cena cenar centra centrado centro cera cercana cercano cerdo cerdos cereales cerebral cerebro cero
cerrada cerradas cerrado cerrados cerrando cerrar cerraron cerro chaqueta cheque chilena chiquito chocolate choque
chupa ciento cientos cierra cierran cierre cierta ciertas cierto ciertos cigarrillos cima cinta cintas cintura
cinturon cirugia cita citada citado citar citas city clara claras claros clases clausula claves clavo clima coca
coche coches cocina coco codigo codo coger cogido cojo cola colapso colas colchon colegio colera colina colmo colo
colores coma comando combina come comedia comedor comen comento comenzo comer comes cometa comete cometer cometido
cometio comi comic comico comida comidas comido comience comiendo comienza comienzo comienzos comio comisaria comite
como comoda comodo compara compañera compañeras compañero compañeros compañia compra compras compre comprendo compro
compromiso comun comuna comunal comunes concejo concesion concha conclusion conclusiones conectar conejo confesar
confesion confio confundido confundir confusion confuso conmigo cono conocimiento conocimientos conocio consegui
consejo consiga consigna consigo consigue consiguen consiguio consiste consta consumo contactar contado contando
contar contaron contenta conteo contesta contestar contesto contigo continua continuado continuan continuar
continuara continuaron continuas continue continuo contra contraseña contratar conversion cooper copa copas copias
cordero corea coro corona corral corre correa correcto corredor corren correo correos correr corriendo corrio corta
cortado cortan cortar cortas corte cortes corteza cortina cortinas corto cortos coruña cosa cosas costa costado
costar costas costera costes costos coño crea creamos crece crecen crecer cree creemos creen creer crees crei creo
crisis cristal cristales cristo cruzando cuadra cuadrado cuadro cual cuales cuan cuando cuanta cuanto cuantos cuarta
cuarto cuatro cuba cubana cubano cubierta cubierto cubo cuchillo cuchillos cuello cuenca cuenta cuentan cuentas
cuente cuenten cuento cuerda cuernos cuero cuerpo cuerpos cuervo cuesta cueste cuestion cuevas cuidado cuidando culo
cumpleaños cuna cupo cura curso cursos cuyo cuñado dada dado dados dando dandole dario darnos dato daño daños deba
debajo debe debia debian debida debido debieron debil debiles debilidad debio debo decada decadas decano decia
decian decida decide decidi decidido decidio decidir decima decimo decir decirle decirlo decirme decirse decirte
decis dedicacion dedicar dedico dedo dedos defecto defendido defendio definida definido deja dejaba dejado dejame
dejamos dejan dejando dejar dejara dejaran dejare dejaria dejarla dejarlo dejarme dejaron dejarse dejarte dejas
dejaste deje dejen dejes dejo delgado demanda demasiada demasiadas demasiado demasiados demos desafio desaparece
desaparecen desaparecer desaparecida desaparecido desaparecidos desaparecieron desaparecio desaparicion desayunar
desayuno deseado desear deseos desierto despacho despacio despertado despertar desperte desperto despido despierta
despierto desprecio destacada destacado destacando destaco detectar detenido detenidos deudas devolver devuelve
diablo diaria diarias diario diarios dias diaz dibujo dice dicen dices dichas diciembre diente dientes dieran dieron
dificil dificiles dificultad dificultades digas digo dije dijeron dijo dile dime dinero dios dire disney disposicion
disposiciones doble dobles doce docentes doctor doctores dolar dolares dolor dolores dolorosa doloroso domina
dominar donald donar donde dont dorada dorado dormida dormido dormir dosis dudo duele duelo duerme durango echa
echado echan echando echar echarle echaron echo ecuacion editar elegida elevada elevado elevados elevar elite elites
embajada embarazada embarazadas embarazo embargo emitio empate empece emperador empezaba empezado empezamos
empezando empezar empezaron empezo empeño empiece empiecen empieza empiezan empiezas empiezo empleada empleado
emplear empleo empuje encanta encantado encantan encanto encargada encargado encima encontro encuentra encuentran
encuentras encuentre encuentren encuentres encuentro encuentros energia energias enero enfermo enlace enojada
enojado enorme enormes ensalada enseño ente entera enteras entere entero enteros entra entraba entrada entrado
entran entrando entrar entraron entras entre entrega entregan entregar entren entrenar entro envia envian enviar
erupcion escala escalada escapa escapar escape escapo escasa escaso escena escuche escucho escudo escudos escuela
esfera espacio espada espadas espalda espaldas españa espectro espejo espejos espera esperado esperamos esperan
esperando esperanza esperar esperas espere esperemos esperen esperes espero espia espias espinas espinosa espiral
esposa esposas esposo espuma esquema esquina esta estaba estaban estacion estado estafa estais estan estancia
estando estar estara estaran estaras estare estaria estarian estas este estela estelar esten estero estes esther
estilo estima esto estomago estos estoy estreno estres estudian estupendo estuve estuviera estuvieran estuvieron
estuviese estuvo evacuacion evaluacion evita evitar evitarlo examen examenes exigen externos extra facil faciles
falda falla fallado fallar fallas falsa falsas falta faltaba faltan faltar faltas falto fatal febrero fechas
fenomeno fenomenos ferrer fibras fiebre fieles fierro fijate flecha formal france franco francos frases frecuente
frecuentes frenos fresca fresco frescos frias frio frios fritas fruta frutas fruto frutos fuego fuegos fuente
fuentes fuera fueran fueras fueron fuerte fuertes fuerza fuerzas fuesen fuimos fuiste fusion gafas gallego gallegos
galletas gallina gallinas gana ganaba ganado ganados ganamos ganan ganar ganarse ganas gano garantia garganta
gastado gastar gasto gastos gato gatos general genero genial geniales gente gentes gerente gesto global globo globos
grabado grabando grace grados grafico graficos gramos granada grande grandes granito granja grano granos gratis
gratuitos grave graves griega griegos gritar gritos grueso grupos gusta gustado gustan gustar gustas gustavo guste
gusto gustos haber haberle haberme haberse haberte habiles habito hables habria hace hacen hacer hacerla hacerle
hacerles hacerlo hacerme hacerse hacerte haces haga hago hambre hamburguesa hamburguesas hara hare haria harian
harias harina harta harto hasta have hecha hechas hecho hechos hector herida heridas herido heridos hermana hermanas
hermandad hermano hermanos hermosa hermoso hermosos hernan heroes heroina hice hierba hierbas hierro hija hijas hijo
hijos hilo hilos hincha hinchas hito hizo hoja hojas hola hombre hong hongos hora horacio horario horarios horas
horno horrible horribles horror hueco huelva huerta hueso huesos huevo huevos hugo humedo impacto implantacion
importacion imposible imposibles impresa impreso impresos inconsciente inferior informa informado informaron informo
ingenio inmensa inmenso insiste insistio insistir insisto insoportable instruccion instrucciones integra intensa
intenso intenta intentado intentan intentando intentar intentarlo intentas intente intento intentos interes interesa
interior interna internas internet interno internos inventado invento inversa invertir invitada izquierda izquierdas
izquierdo jabon jamas james jamon japon jason jean jefa jefe jefes jeff jeje joan jodido juan juana judio judios
jueces juegan juego juegos jugado jugo juicio julia julian julio junio junior junto juntos jurado juro labios
laboral labores laguna largos lastima latina latino latinos lavado lazaro league leche lector lectura legado leido
lengua lenguaje lenguas lenta lentes lento levanta levantar levantarse levanto liga lima liquido liquidos lisa llama
llamaba llamada llamado llaman llamando llamar llamarlo llamaron llamarse llamas llame llamen llamo llano llanto
llave llaves llega llegado llegan llegando llegar llegas llego llegue llena llenan llenar llenas lleno llenos lleva
llevaba llevada llevado llevan llevando llevar llevara llevas lleve lleven llevo llorando llorar llueve lluvia
locura logica logico logo logra logrado logran lograr logre logro logros luego lugares machado machista macho machos
madera madero madre madres madrid madura madurez maduro magico mago mail maiz mala malaga maldita malestar maleta
maletas malo mama mami mancha manchas manda mandado mandan mandando mandar mandaron mandato mande mando maneja
manejando manejo manera maneras mango mano manta mantenia manto manzana manzanas mapa maraton maravilla maravillas
maravillosa marcada marcado marcador marcan marcando marcas marcelo marcha marchar marchas marcho marco marcos marea
mares margen mariana mariano marido marina marino marinos mario marmol marron marta martes martha martin marzo masa
masivo mata matado matan matando matanza matar mataron matas mate mateo materia material materias materna matias
mato matriz matt maxima maximo maya mayo mayor mayoria mañana mañanas mecanico medalla medallas media mediacion
mediana mediano medias medica medicamento medicamentos medicina medicinas medicion medico medicos medida medina
medio medios medir meditacion mejor mejora mejorado mejorando mejorar mejoras mejores memes memoria menor menores
mensual mental mentes mentir mercados merida merito mero mesas meses meta metal metales metalico metas mete meten
meter meterme meterse metes meti metido metio meto metodo metro metros mexicana mexico mezcla mezclado mezclar miedo
miedos miento mierda mierdas minera mineria minero mini mirada miseria mitad moderada mojado molesta molestar
molestia molesto molina molino molinos moneda montar moral morales morelos morena morgan morir mortal mortales
mostro motivo moverse movida movido moviendo movil moviles mucha muchas muchisimas muchisimo muchisimos mucho muchos
muelle muera muere mueren muero muerta muertas muerte muertes muerto muertos muestra mueve mueven mujer mujeres
mundo murcia muscular nacida nada nadar nadie naranja nariz nasa natal nativa negado negar nego negra negras negro
negros nena nene neta neto nido niebla niega niegan niego nieto nietos nieve nieves nina ningun ninguna ninguno niña
niñas niño niños noche noches nocion nomina norma normal normales norman normas nota notado notas note noto novela
novia novias noviembre novio novios nuca nueva nuevas nueve nuevo nuevos numero nunca nuñez obra obsesion octubre
ocurre odio oficial oficina oficinas oficio oficios oido oidos ojala ojos olvida olvidado olvidan olvidar olvide
olviden olvides olvido opera operacion operaciones operador operan operar opina opinan opinar opinas opresion optica
orina orto oscura oscuras oscuro oscuros otorga otorgo otra otras otro otros oxigeno paco padre padres paga pagado
pagados pagan pagando pagar pagara pagas page pago paises paja pajaro pala palabra palmas palo pampa pana panama
panel pantalla pantallas papa papas papel papeles papi paquete paquetes para parada paradas paradero parado parados
paraiso paran parana parar pardo pare parece pareces parecia pared paredes pareja parejas paren pares parezca park
parker paro parodia parque parques parra parrafo parrilla part partes partida partidas partido partidos partiendo
partio partir parto pasa pasaba pasaban pasada pasadas pasado pasados pasaje pasamos pasan pasando pasar pasara
pasaran pasaria pasaron pasas pascua pase pasear pasen paseo pases pasillo pasion pasivo paso pasos pasta pastel
pastillas pasto pastor pata patada patadas patas patatas pato patria patron pausa pautas payaso pañuelo pecado
pecados pecho pechos pedazo pedazos pedi pedia pedido pedidos pedimos pedo pedro pega pegado pego peleando peleas
pelicula peliculas pelo pelota pena penal penas pendejo pene pensado pensando pensar pensarlo pension penso peor
peores pequeña pequeño perder perdi perdida perdidas perdido perdidos perdiendo perdimos perdio perdon perdona
pereira perfil periodico periodo periodos perla perlas permiso permita pero perra perrito perro perros persa persona
peru peruana pesa pesada pesado pesados pesar pescado pese pesimo peso pesos petro petroleo petrolera peña piba pica
pico pida pide pidiendo pidieron pido piedra piedras piel pieles piensa piensan piensas piense piensen pienses
pienso pierda pierdan pierdas pierdes pierdo pierna piernas pierre pies pieza piezas pija pila piloto pilotos pinche
pinches pino pinos pinto pintor pisa piso pisos pista pistas pito pizza piña placa placas placer plaga plana plancha
planea planes planos planta plantas plantilla plasma plata platos play playa playas plaza plazas plazos plena plumas
poca poco pocos podeis podia podian podias podido podra podran podras podre podria podrian podrias poesia polaco
politica politico polla pollo polo polvo pondra pondria ponia portal posesion positiva positivas positivo positivos
posta posts potosi pozo pozos prado precio precios precision pregunta preguntaba preguntado preguntan preguntar
preguntarle preguntaron preguntas pregunte pregunto premio premios prenda prensa preocupa preocupada preocupado
preocupan preocupante preocuparse preocupes prepara presentar presion presionar presiones preso presos prestado
prestan prevenir previo previos prevision prieto prima primas prime primer primera primero primo primos prisa
prision privada problema problemas procesion produce producen producida producido producir producto productor
produjo produzca profesion profesor profesora profesores provoca provocado provocan provocar provoco proxima proximo
prueba pruebas pude pudiendo pudieran pudieron pudo puebla pueblo pueda puedan puedas puede pueden puedes puedo
puente puentes puerta puertas puerto puertos pues puesta puestas puesto puestos pulgadas pulso puntas punto puntos
pura puras pureza puro puros puse pusieron puso puta putas puto putos puñado puño queda quedaba quedaban quedado
quedamos quedan quedando quedar quedara quedaran quedaria quedarme quedaron quedarse quedarte quedas quedate quede
queden quedes quedo queen queja quejan quejas quema quemado quemar quereis querer queres queria querian querias
querida querido querria queso quiebra quien quienes quiera quieran quieras quiere quieren quieres quiero quince
quinta quinto quise quisiera quisieran quisieron quiso quita quitado quitan quitar quitarle quitaron quite quito
rama ramo rana rapida rapidez rapido rapidos rara raras raro rasgos rastro rata rato raton raya rayo raza reaccion
reaccionar reacciones receptor receta recetas recibio recibo reciente recinto recordo recreo recto rector recuento
redaccion redonda redondo reduccion redujo refirio refleja reflejo regalar regalo region regla reglas regresa
regresan regresar regrese regreso regula regular rejas relacion relaciona relata relato remedio remota remoto rendir
reparacion reparar repente repetir repite repito reporte resolver respeta respetar respeto respira respiracion
respirar respiro responda responde responden responder respondio respondo retira retirado retirar retiro reto
retraso retrato retratos reunen reunido reunidos reunieron reunio reunion reuniones reunir revela revelado revelo
riego riendo riesgo riesgos rioja roba robo robos robots roca rocas rodilla rodillas roja rojas rojo rojos roma
romero ronda ropa ropas rosa rosario rosas rostro rostros rota roto rotos ruidos sabado sabe sabeis saben saber
saberlo sabes sabia sabian sabias sabido sabiendo sabio sabor sabra sabras sabria saca sacado sacan sacar sacarle
sacarlo sacaron sacas saco sagrada sagrado sala salario saldo saldra sale salen sales salga salgan salgo sali salia
salida salidas salido saliendo saliera salimos salinas salio salir salon salones salsa salta saltar salto saluda
saludo salva salvado salvador salvar salvo sancho sandra sangre sano segui seguia seguian seguida seguido seguir
seguira seguiran seguire seguiria segura seguro semana semanal semanales semanas semilla semillas senado sencilla
sendero sentada sentado sentados sentia sentido sentidos sentimos sentir sepa separa sepas septiembre septimo sequia
nevera neveras heladera refrigerador frigorifico
serena servido servir servira setiembre severa severo sevilla señora shock siembra siempre siendo sienta sientan
sientas siente sienten sientes siento siesta sigue siguen sigues siguio simple single sintio sintoma sintomas
siquiera sirven sirviendo sistemas soberano sobre sobrina sobrino social socios sofa sofia soja sola solas soldados
soledad solia solian solida solido solidos solo solos soltar sonia sonido sonidos sonrisa sopa soria sosa sostener
sostenido soto stock suba subasta sube suben subida subido subiendo subio subir subo subsidio suceda sucedio suceso
sucesos sucios suecia sueco sueldo sueldos suele suelen suelo suelos suelta suelto suerte sueño sueños sufrir
suicida suicidio sujeta sujeto sujetos supe super supera superan superar superficial superficie superficies supero
supiera supo suponer surgio surgir suspender sustento tabaco tablero tacos tacto tamaño tampoco tango tantos tapa
tapar tarda tardar tarde tardes tardo tarjeta tarjetas tarta tasa taza tecnico tejido tejidos telefonia telefono
telefonos temblor teme temer temo temores temperatura temperaturas tendra tendre teneis tener tenerla tenerlo tenes
tenga tengan tengas tengo tenian tenias tenido teniendo tension tensiones tercer termina terminada terminado
terminal terminan terminar terminara terminaron terminas termine terminen termino terminos terrible terribles test
tiempo tiempos tienda tiende tienden tiene tienen tienes tierno tierra time tirando toalla toca tocaba tocado
tocando tocar toco toda todas todo todos toledo toma tomaba tomada tomadas tomado tomados tomamos toman tomando
tomar tomara tomaron tomarse tomas tomate tome tomen tomes tomo tono tonta tope toro torta tortuga tortura trabaja
trabajado trabajan trabajando trabajar trabajas trabaje trabajo trabajos traduce traen traera trafico tragico trago
traia traido traiga traigo traje trajes trajo trama tramo trampa tras trasera traslado trata trataba tratado
tratados tratamiento tratamientos tratan tratando tratar tratarse tratas traten trato tratos trauma traves trazado
tregua tremenda tremendo tren trenes tres trigo trofeo tronco trono tropas trozo trozos trucos tuve tuvo unas usas
uñas vacios vago valdes vale valen valer valida valido valle valles valley vano varela variados varios vasco vaso
vasos veas veces vecina vecinas vecino vecinos vegas vehiculos velas venas vencer vencido vencio vendido vendra
veneno vengan vengas venian venido ventas venus veran verano veras verbal verdad verdades verdes verduras vereda
verlas vernos vestido vestidos veterano vicente victor vida vidal vidas videos vidrio viena viendo viene vienen
vienes viento vientre viernes vieron vigente vigo vine viniendo vino vinos visa vision visita visitado visitando
visito vista vistas vistazo viste visto vistos viuda viva vivi vivia vivian vivido vivienda viviendas viviendo vivio
vivir vivo viña voces volviendo votado votando vuelos vuelta vueltas vuelto vuelva vuelvan vuelvas vuelve vuelven
vuelves vuelvo vuestras wifi
acierto aciertos aclaro acuden adonde afectara agonia ahogados ajenas ajos alambre alegrias alejada alejados amena
anchas anormal aportado aportando aprecia aprecio apretar apuntado arabe arriendo asfixiante aspira aspirar asta
atacante atendido atomos añitos bacalao bate bañera bebas besito bordado cadera caidas calado calida camping canchas
canela cantaba cantado carcasa cargadas carisma carita carpa cascos casera casillas casinos casita castillos cata
caucho causadas causados cava ceniza centrada centran cesion cesta chalet chalets chapa cheques chulo clanes cobrando
cocer cocido cogiendo cojiendo colorido combinada comodas comodos compas constar contados contara contare copiado
corbata corrida corridas corrido coser cositas cosmos cost cover creces cuadrada cuidada curro dañado debuto decidan
decidida decido deducir dela demo deporte derrame desalojo descartar descuido detalla detallo deudor dietas dignas
disponga dorados dotado dotar duermen duplex ecuaciones encaja encaje encarar enfriar envios enzimas escapada escoge
escote esponja estrenos evaluaciones exigir faceta faldas fiable floreria flower frikis garras gata genere grabada
grasas grasos grato gringos gusano habita hackers halo hondo honra huecos huerto informados informando juntan laicos
lectora llantas llover mais malvado manada mangas maqueta marcadas marcados marcaron medula meneos mirado moderados
modesta modesto montada monton mueble muestro neutro nokia novato novena noveno oigo olores optima optimo oscila osos
padece paleta paliar palmeras parajes parcela parecidas parquet parrafos parten paseando pasillos pasiva pauta pedira
peinado pela pensada pereza pezones pileta pincel pincha pinchando pintadas pintados pisar pizca plagas planas
plantillas poliza polos ponian portadas porvenir poseia predecir predio presunta prisas proclama procura projimo promo
pulido pulsando purpura quitando rabo rapidas ratito rebaja regala regalan reggae regulan relevo remonta repaso
repetido repleto reporta reposicion resalta resina respetado respete reunira rito rodajas rola rollos rondas rosado
sabios sabroso sagrados saldre saltos saquen sarten secado secar seducir sellado senador server siervo siguelos situan
soberana solemos sordos sueltas suero talla tambores tardado tejado tejer tendido tenor tierna torero torna tornillos
toyota tramas tramos traslada tratada tratara trofeos validos variado vascos vasito vasitos vehicular vendes venida
vicios vinilo visitada wiki
colgue pagarlo pagarla pagarle notarlo
"""
